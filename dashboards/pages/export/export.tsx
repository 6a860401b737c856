/**
 * Handing a well over: its drawing, and all that is known of it as one file for whoever has it
 * next.
 */
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
        Everything recorded about this well in one file: for a new owner, a new tenant or the technician who
        services the pump.
      </p>
      {source.live && (
        <section aria-labelledby="take">
          <h2 id="take">Download everything</h2>
          <p class="downloads">
            <a class="button" href={source.fileUrl('exportZip', { well: name, units })} download>
              Everything (ZIP)
            </a>
            <a class="button" href={source.fileUrl('exportPage', { well: name, units })} download>
              Page only (HTML)
            </a>
          </p>
          <p class="secondary">
            The ZIP holds a page that opens in any browser without a server, tables for a spreadsheet, the
            documents, and a record that another Stillwell imports without loss. The page alone leaves out the
            documents. Voided documents are left out of both. A large file takes a moment to build.
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
