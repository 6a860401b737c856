/**
 * Handing a well over: its drawing, and all that is known of it as one file for whoever has it
 * next.
 */
import { useAppContext } from '../../data/settings.ts';
import { LogbookHead } from '../../ui/logbook-head.tsx';
import { Section } from './section.tsx';
import { ImportForm } from '../../ui/import-form.tsx';
import { texts } from './texts.ts';

export function ExportPage({ name }: { name: string }) {
  const { source, units } = useAppContext();
  return (
    <>
      <LogbookHead well={name} page="export" />
      <p class="lead">{texts().intro}</p>
      {source.live && (
        <section aria-labelledby="take">
          <h2 id="take">{texts().downloadEverything}</h2>
          <p class="downloads">
            <a class="button" href={source.fileUrl('exportZip', { well: name, units })} download>
              {texts().everythingZip}
            </a>
            <a class="button" href={source.fileUrl('exportPage', { well: name, units })} download>
              {texts().pageOnlyHtml}
            </a>
          </p>
          <p class="secondary">{texts().help}</p>
        </section>
      )}
      <section aria-labelledby="section">
        <h2 id="section">{texts().section}</h2>
        <Section well={name} />
      </section>
      <ImportForm />
    </>
  );
}
