import { AlertDialog, Dialog } from 'radix-ui';
import { useSession } from '../store/use-editor.ts';
import { KeptScenes } from './kept-scenes.tsx';
import { useDocuments } from './use-documents.ts';

/** Whichever question about the document is open. */
export function DocumentDialogs() {
  const { documents } = useSession();
  const dialog = useDocuments((state) => state.dialog);
  const close = () => documents.showDialog(null);
  const onOpenChange = (open: boolean) => {
    if (!open) close();
  };

  return (
    <>
      <Dialog.Root open={dialog?.kind === 'kept-scenes'} onOpenChange={onOpenChange}>
        <Dialog.Portal>
          <Dialog.Overlay className="dialog-shade" />
          <Dialog.Content className="dialog" aria-describedby={undefined}>
            <Dialog.Title>Scenes kept in this browser</Dialog.Title>
            <KeptScenes onOpened={close} />
            <div className="dialog-buttons">
              <Dialog.Close>Close</Dialog.Close>
            </div>
          </Dialog.Content>
        </Dialog.Portal>
      </Dialog.Root>

      <Dialog.Root open={dialog?.kind === 'link'} onOpenChange={onOpenChange}>
        <Dialog.Portal>
          <Dialog.Overlay className="dialog-shade" />
          <Dialog.Content className="dialog">
            <Dialog.Title>A link to this scene</Dialog.Title>
            <Dialog.Description>
              The browser did not let it onto the clipboard. Select all of it and copy it from here.
            </Dialog.Description>
            <textarea
              className="link-text"
              readOnly
              rows={5}
              aria-label="Link"
              value={dialog?.kind === 'link' ? dialog.link : ''}
              onFocus={({ currentTarget }) => currentTarget.select()}
            />
            <div className="dialog-buttons">
              <Dialog.Close>Close</Dialog.Close>
            </div>
          </Dialog.Content>
        </Dialog.Portal>
      </Dialog.Root>

      <AlertDialog.Root open={dialog?.kind === 'file-changed'} onOpenChange={onOpenChange}>
        <AlertDialog.Portal>
          <AlertDialog.Overlay className="dialog-shade" />
          <AlertDialog.Content className="dialog">
            <AlertDialog.Title>
              <bdi>{dialog?.kind === 'file-changed' ? dialog.fileName : ''}</bdi> was changed on the disk
            </AlertDialog.Title>
            <AlertDialog.Description>
              Something else has written it since it was opened here. Saving over it loses those changes.
            </AlertDialog.Description>
            <div className="dialog-buttons">
              <AlertDialog.Cancel>Do not save</AlertDialog.Cancel>
              <AlertDialog.Action onClick={() => void documents.save('over the changed file')}>
                Save over it
              </AlertDialog.Action>
              <AlertDialog.Action
                className="first-choice"
                onClick={() => void documents.save('another file')}
              >
                Save as another file…
              </AlertDialog.Action>
            </div>
          </AlertDialog.Content>
        </AlertDialog.Portal>
      </AlertDialog.Root>
    </>
  );
}
