import { useState } from 'react';
import { useStore } from 'zustand';
import { newerBuild } from '../offline.ts';

/** That a newer build waits, and what to do to have it; nothing is ever taken from under anybody's work. */
export function NewerBuild() {
  const waits = useStore(newerBuild, (state) => state.waits);
  const [hidden, setHidden] = useState(false);
  return (
    <div role="status">
      {waits && !hidden && (
        <div className="notice newer-build">
          <p>A newer Keyfall is ready. To have it, close every tab of Keyfall and open it again.</p>
          <button type="button" onClick={() => setHidden(true)}>
            Later
          </button>
        </div>
      )}
    </div>
  );
}
