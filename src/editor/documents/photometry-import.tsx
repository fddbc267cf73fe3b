import { Dialog } from 'radix-ui';
import { useState } from 'react';
import { useSession } from '../store/use-editor.ts';
import type { PhotometricFileBrought } from './documents-state.ts';
import { HeadForm } from './head-form.tsx';
import { PhotometryFigures } from './photometry-figures.tsx';
import { PolarDiagram } from './polar-diagram.tsx';
import { useDocuments } from './use-documents.ts';
import { usePhotometry } from './use-photometry.ts';

/** The photometric file that was brought, to look at before a lamp takes it. One after another where there are several. */
export function PhotometryImport() {
  const { documents } = useSession();
  const file = useDocuments((state) => state.brought[0]);
  const more = useDocuments((state) => state.brought.length - 1);

  return (
    <Dialog.Root open={file !== undefined} onOpenChange={(open) => !open && documents.photometryDone()}>
      <Dialog.Portal>
        <Dialog.Overlay className="dialog-shade" />
        <Dialog.Content className="dialog dialog-wide" aria-describedby={undefined}>
          <Dialog.Title>
            <bdi>{file?.name}</bdi>
            {more > 0 && <span className="quiet"> and {more} more after it</span>}
          </Dialog.Title>
          {file && <FileLookedAt key={file.name} file={file} />}
        </Dialog.Content>
      </Dialog.Portal>
    </Dialog.Root>
  );
}

function FileLookedAt({ file }: { readonly file: PhotometricFileBrought }) {
  const { documents } = useSession();
  const [lampSet, setLampSet] = useState(0);
  const looked = usePhotometry(file, lampSet);
  const close = (
    <button type="button" onClick={documents.photometryDone}>
      Leave it
    </button>
  );

  if (!looked) {
    return (
      <>
        <p className="quiet">Reading…</p>
        <div className="dialog-buttons">{close}</div>
      </>
    );
  }
  const { summary, fault } = looked;
  if (!summary) {
    return (
      <>
        <p role="alert">
          Line {fault.line}: found <bdi>{fault.found}</bdi>; expected <bdi>{fault.expected}</bdi>.
        </p>
        <p>{fault.mend}</p>
        <div className="dialog-buttons">{close}</div>
      </>
    );
  }
  return (
    <>
      <div className="photometry">
        <PolarDiagram summary={summary} />
        <PhotometryFigures summary={summary} />
      </div>
      {summary.lampSets > 1 && (
        <label className="dialog-field">
          Lamp set, of {summary.lampSets}
          <select value={lampSet} onChange={({ target }) => setLampSet(Number(target.value))}>
            {Array.from({ length: summary.lampSets }, (_, i) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a set is known by its place in the file
              <option key={i} value={i}>
                {i + 1}
              </option>
            ))}
          </select>
        </label>
      )}
      <HeadForm
        key={lampSet}
        file={file}
        summary={summary}
        lampSet={lampSet}
        onDone={documents.photometryDone}
      />
    </>
  );
}
