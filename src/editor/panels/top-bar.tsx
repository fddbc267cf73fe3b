import { DocumentDialogs } from '../documents/document-dialogs.tsx';
import { DocumentMenu } from '../documents/document-menu.tsx';
import { DocumentNotices } from '../documents/document-notices.tsx';
import { DocumentStatus } from '../documents/document-status.tsx';
import { PhotometryImport } from '../documents/photometry-import.tsx';
import { StepsMenu } from '../documents/steps-menu.tsx';
import { CommandList } from '../shell/command-list.tsx';
import { ViewMenu } from '../shell/view-menu.tsx';
import { useEditor, useSession } from '../store/use-editor.ts';
import '../styles/documents.css';
import { CameraAndSetup } from './camera-and-setup.tsx';

export function TopBar() {
  const { documents } = useSession();
  // Not the document itself: every edit would draw all menus and dialogs anew.
  const opened = useEditor((state) => state.scene !== null);
  const titled = useEditor((state) => state.scene?.document.title);
  const title = opened ? titled || 'Untitled scene' : 'Opening…';

  return (
    <header className="top-bar">
      <p className="brand">Keyfall</p>
      <DocumentMenu />
      <div className="document-name">
        <h1 title={title}>
          <bdi>{title}</bdi>
        </h1>
        <DocumentStatus />
      </div>
      <div className="bar-buttons">
        <CameraAndSetup />
        <ViewMenu />
        <CommandList />
        <StepsMenu />
        <button type="button" onClick={() => void documents.save('own file')} disabled={!opened}>
          Save
        </button>
      </div>
      <DocumentNotices />
      <DocumentDialogs />
      <PhotometryImport />
    </header>
  );
}
