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
import { Panes } from './shell/panes.tsx';
import { SidePanels } from './shell/side-panels.tsx';
import { useWide } from './shell/wide.ts';
import { StopRule } from './stop-rule/stop-rule.tsx';
import { useEditor } from './store/use-editor.ts';
import { ViewFrame } from './view/view-frame.tsx';

const MORE_VIEWS = [{ id: 'space', name: '3D', view: <ViewFrame /> }];

/** Frame beside plan and panels, over the stop rule; one under another where the page is narrow. */
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

  const frame = { id: 'frame', share: 40, least_px: 300, content: <FramePanel /> };
  const plan = { id: 'plan', share: 32, least_px: 280, content: <PlanView more={MORE_VIEWS} /> };
  const side = { id: 'panels', share: 28, least_px: 300, content: <SidePanels /> };
  const rule = { id: 'stop rule', share: 39, least_px: 230, content: <StopRule /> };
  const above = {
    id: 'frame and plan',
    share: wide ? 61 : 40,
    least_px: 220,
    content: (
      <Panes
        name={wide ? 'columns' : 'two columns'}
        orientation="horizontal"
        panes={wide ? [frame, plan, side] : [frame, plan]}
      />
    ),
  };
  return (
    <DropTarget>
      <LampPatterns />
      <TopBar />
      <ProblemsPanel />
      <main className="desk">
        <Panes
          name={wide ? 'rows' : 'three rows'}
          orientation="vertical"
          panes={wide ? [above, rule] : [above, { ...side, share: 30, least_px: 160 }, rule]}
        />
        <SetupsStrip />
      </main>
      <Cautions />
    </DropTarget>
  );
}
