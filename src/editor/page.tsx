import { useEffect } from 'react';
import { Cautions } from './panels/cautions.tsx';
import { DropTarget } from './panels/drop-target.tsx';
import { ExposureChoice } from './panels/exposure-choice.tsx';
import { HazeControls } from './panels/haze-controls.tsx';
import { LampControls } from './panels/lamp-controls.tsx';
import { LampList } from './panels/lamp-list.tsx';
import { ProblemsPanel } from './panels/problems-panel.tsx';
import { ReadingParts } from './panels/reading-parts.tsx';
import { Readings } from './panels/readings.tsx';
import { TopBar } from './panels/top-bar.tsx';
import { Warnings } from './panels/warnings.tsx';
import { useEditor } from './store/use-editor.ts';
import { ViewFrame } from './view/view-frame.tsx';

export function Page() {
  const title = useEditor((state) => state.scene?.document.title);
  useEffect(() => {
    document.title = title ? `${title} · Keyfall` : 'Keyfall';
  }, [title]);

  return (
    <DropTarget>
      <TopBar />
      <ProblemsPanel />
      <main className="desk">
        <ViewFrame />
        <Readings />
        <div className="side">
          <div className="side-part">
            <ExposureChoice />
            <LampList />
            <Warnings />
          </div>
          <LampControls />
          <HazeControls />
        </div>
        <ReadingParts />
      </main>
      <Cautions />
    </DropTarget>
  );
}
