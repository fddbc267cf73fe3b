import { Dialog } from 'radix-ui';
import { useState } from 'react';

interface SheetButtonsProps {
  /** Frames that are there, and how many there will be. */
  readonly done: number;
  readonly count: number;
  /** All that stands on the sheet is there, and of the scene as it stands. */
  readonly ready: boolean;
  /** Draws and saves it. */
  save(): Promise<void>;
}

/** At the foot of a dialog of frames: how far they are, and a contact sheet of them. */
export function SheetButtons({ done, count, ready, save }: SheetButtonsProps) {
  const [sheet, setSheet] = useState<{ readonly words: string; readonly busy: boolean } | null>(null);
  const draw = async () => {
    setSheet({ words: 'Drawing the sheet…', busy: true });
    try {
      await save();
      setSheet({ words: 'Saved where this browser puts downloads.', busy: false });
    } catch (error) {
      setSheet({ words: `Not saved: ${(error as Error).message}`, busy: false });
    }
  };
  return (
    <div className="dialog-buttons">
      <p className="build-up-progress" role="status">
        {done < count ? `${done} of ${count} frames` : sheet?.words}
      </p>
      <Dialog.Close>Close</Dialog.Close>
      <button
        type="button"
        className="first-choice"
        disabled={!ready || sheet?.busy}
        onClick={() => void draw()}
      >
        Save contact sheet
      </button>
    </div>
  );
}
