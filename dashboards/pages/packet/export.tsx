/** Handing a well over: its drawing, and all that is known of it as one file for whoever has it next. */
import { useAppContext } from '../../data/settings.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { Section } from './section.tsx';
import { ImportForm } from '../../ui/import-form.tsx';

export function ExportPage({ name }: { name: string }) {
  const { source, units } = useAppContext();
  return (
    <>
      <LogbookHead well={name} page="export" />
      <p class="lead">
        All that was written, measured and told of this well as one file, for whoever buys the house, takes
        over the farm or comes to service the pump.
      </p>
      {source.live && (
        <section aria-labelledby="take">
          <h2 id="take">Take the packet</h2>
          <p class="downloads">
            <a class="button" href={source.fileUrl('exportZip', { well: name, units })} download>
              The whole packet (ZIP)
            </a>
            <a class="button" href={source.fileUrl('exportPage', { well: name, units })} download>
              The page alone (HTML)
            </a>
          </p>
          <p class="secondary">
            The ZIP holds a page that opens in any browser without a server, tables for a spreadsheet, the
            papers, and the record that another Stillwell takes in without loss. The page alone holds all but
            the papers. Papers that were struck out do not go along. A large packet takes a moment to be made.
          </p>
        </section>
      )}
      <section aria-labelledby="section">
        <h2 id="section">The well in section</h2>
        <Section well={name} />
      </section>
      <ImportForm />
    </>
  );
}
