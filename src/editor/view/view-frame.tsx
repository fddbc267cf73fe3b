import { Component, lazy, type ReactNode, Suspense, useState } from 'react';
import { hasWebGL2 } from './webgl2.ts';

/** The working view is large: the numbers come first. */
const WorkingView = lazy(() => import('./working-view.tsx'));

/** The place of the working view; where it cannot be drawn, the page goes on without it and says so. */
export function ViewFrame() {
  const [attempt, setAttempt] = useState(0);
  const [lost, setLost] = useState<string | null>(null);
  const [drawable] = useState(hasWebGL2);

  return (
    <section className="view-frame" aria-label="Working view">
      {!drawable && (
        <p className="view-message" role="status">
          This browser does not offer WebGL 2, so nothing can be drawn here. The plan and the numbers work all
          the same.
        </p>
      )}
      {drawable && lost !== null && (
        <div className="view-message" role="status">
          <p>The view stopped ({lost}). The numbers go on.</p>
          <button
            type="button"
            onClick={() => {
              setLost(null);
              setAttempt(attempt + 1);
            }}
          >
            Draw it again
          </button>
        </div>
      )}
      {drawable && lost === null && (
        <ViewErrors key={attempt} onError={setLost}>
          <Suspense fallback={<p className="view-message">Drawing…</p>}>
            <WorkingView onLost={setLost} />
          </Suspense>
        </ViewErrors>
      )}
    </section>
  );
}

interface ViewErrorsProps {
  readonly children: ReactNode;
  readonly onError: (message: string) => void;
}

/** A fault in drawing must not take the page down. */
class ViewErrors extends Component<ViewErrorsProps, { readonly failed: boolean }> {
  override state = { failed: false };

  static getDerivedStateFromError() {
    return { failed: true };
  }

  override componentDidCatch(error: Error) {
    this.props.onError(error.message);
  }

  override render() {
    return this.state.failed ? null : this.props.children;
  }
}
