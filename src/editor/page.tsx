import { useEffect } from 'react';
import './styles/shell.css';
import { LampPatterns } from './figures/lamp-patterns.tsx';
import { FramePanel } from './frame/frame-panel.tsx';
import { Cautions } from './panels/cautions.tsx';
import { DropTarget } from './panels/drop-target.tsx';
import { ProblemsPanel } from './panels/problems-panel.tsx';
import { TopBar } from './panels/top-bar.tsx';
import { PlanView } from './plan/plan-view.tsx';
import { SetupsStrip } from './setups/setups-strip.tsx';
import { firstSizes } from './shell/first-sizes.ts';
import { KeySheet } from './shell/key-sheet.tsx';
import { Later } from './shell/later.tsx';
import { NewerBuild } from './shell/newer-build.tsx';
import { Panes } from './shell/panes.tsx';
import { SidePanels } from './shell/side-panels.tsx';
import { useWide } from './shell/wide.ts';
import { useLaneSize } from './stop-rule/lane-size.ts';
import { StopRule } from './stop-rule/stop-rule.tsx';
import { useEditor } from './store/use-editor.ts';
import { Tour } from './tour/tour.tsx';
import { ViewFrame } from './view/view-frame.tsx';

const MORE_VIEWS = [{ id: 'space', name: '3D', view: <ViewFrame /> }];

/** Frame and plan over the stop rule, the panels beside them; one under another where the page is narrow. */
export function Page() {
  const title = useEditor((state) => state.scene?.document.title);
  useEffect(() => {
    document.title = title ? `${title} · Keyfall` : 'Keyfall';
  }, [title]);
  const scheme = useEditor((state) => state.scheme);
  useEffect(() => {
    document.documentElement.dataset.scheme = scheme;
  }, [scheme]);
  const wide = useWide();
  const { lane_px } = useLaneSize();
  const { side_px, above_px, frame_px, rule_px } = firstSizes({
    width_px: window.innerWidth,
    height_px: window.innerHeight,
    lane_px,
    touch_px: Number.parseInt(getComputedStyle(document.documentElement).getPropertyValue('--touch'), 10),
    wide,
  });

  const frame = { id: 'frame', size: `${frame_px}px`, least_px: 300, content: <FramePanel /> };
  const plan = { id: 'plan', least_px: 270, content: <PlanView more={MORE_VIEWS} /> };
  const above = {
    id: 'frame and plan',
    ...(wide ? {} : { size: `${above_px}px` }),
    least_px: 220,
    content: <Panes name="frame beside plan" orientation="horizontal" panes={[frame, plan]} />,
  };
  const rule = {
    id: 'stop rule',
    size: `${rule_px}px`,
    least_px: 200,
    content: <StopRule />,
  };
  const side = {
    id: 'panels',
    ...(wide ? { size: `${side_px}px`, keepsPixels: true } : {}),
    least_px: wide ? 300 : 160,
    content: (
      <Later>
        <SidePanels />
      </Later>
    ),
  };
  const work = {
    id: 'frame, plan and stop rule',
    least_px: 600,
    content: <Panes name="frame over rule" orientation="vertical" panes={[above, rule]} />,
  };
  return (
    <DropTarget>
      <LampPatterns />
      <TopBar />
      <NewerBuild />
      <ProblemsPanel />
      <main className="desk">
        {wide ? (
          <Panes name="work beside panels" orientation="horizontal" panes={[work, side]} />
        ) : (
          <Panes name="three rows" orientation="vertical" panes={[above, side, rule]} />
        )}
        <SetupsStrip />
      </main>
      <Cautions />
      <KeySheet />
      <Tour />
    </DropTarget>
  );
}
