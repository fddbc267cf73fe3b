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
import { KeySheet } from './shell/key-sheet.tsx';
import { Later } from './shell/later.tsx';
import { Panes } from './shell/panes.tsx';
import { SidePanels } from './shell/side-panels.tsx';
import { useWide } from './shell/wide.ts';
import { StopRule } from './stop-rule/stop-rule.tsx';
import { useEditor } from './store/use-editor.ts';
import { Tour } from './tour/tour.tsx';
import { ViewFrame } from './view/view-frame.tsx';

const MORE_VIEWS = [{ id: 'space', name: '3D', view: <ViewFrame /> }];

/** What the panels at the side take of a page at first: enough for their figures, no more than they can use. */
const sideAtFirst_px = () => Math.round(Math.min(560, Math.max(330, 0.3 * window.innerWidth)));

/** The stop rule takes what its lanes have use for, and no more than the frame can spare. */
const ruleAtFirst_px = () => Math.round(Math.min(400, 0.45 * (window.innerHeight - 148)));

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

  const frame = { id: 'frame', size: '55%', least_px: 300, content: <FramePanel /> };
  const plan = { id: 'plan', size: '45%', least_px: 280, content: <PlanView more={MORE_VIEWS} /> };
  const above = {
    id: 'frame and plan',
    ...(wide ? {} : { size: '35%' }),
    least_px: 220,
    content: <Panes name="frame beside plan" orientation="horizontal" panes={[frame, plan]} />,
  };
  const rule = {
    id: 'stop rule',
    size: wide ? `${ruleAtFirst_px()}px` : '33%',
    least_px: 200,
    content: <StopRule />,
  };
  const side = {
    id: 'panels',
    size: '32%',
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
      <ProblemsPanel />
      <main className="desk">
        {wide ? (
          <Panes
            name="work beside panels"
            orientation="horizontal"
            panes={[work, { ...side, size: `${sideAtFirst_px()}px`, keepsPixels: true }]}
          />
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
