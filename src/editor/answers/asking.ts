import type { EditorState } from '../store/editor-state.ts';
import { cameraShown, setupShown } from '../store/shown-scene.ts';
import type { AnswerKind, AskedOf } from '../worker/answer-kinds.ts';
import type { AnswersState, AskedByPanel, Asking, Overlay, ShownAnswer } from './answers-state.ts';

/** The quick ones first, so that none waits for a slow one that was asked before it. */
const IN_ORDER: readonly AnswerKind[] = [
  'power',
  'stands',
  'lens',
  'focus',
  'night',
  'walk',
  'glints',
  'separation',
  'readings',
  'wardrobe',
];

/** Milliseconds each: these follow while something moves. All others wait until it rests. */
const FOLLOW_MOVES: ReadonlySet<AnswerKind> = new Set(['power', 'stands', 'lens']);

const OVERLAY_KINDS: { readonly [O in Overlay]: AnswerKind } = {
  glints: 'glints',
  outlines: 'separation',
  inShot: 'lens',
  focus: 'focus',
};

/** Whether an overlay is to be seen: its switch is on, or a panel that shows the same answer is open. */
export function isOverlayShown(overlay: Overlay, { wanted, open }: AnswersState): boolean {
  return wanted.has(overlay) || open.has(OVERLAY_KINDS[overlay]);
}

/** The question as it stands now; null without a scene. */
export function askingNow<K extends AnswerKind>(
  kind: K,
  editor: EditorState,
  answers: AnswersState,
): Asking<K> | null {
  const { scene } = editor;
  if (!scene) return null;
  // Readings of the night belong to the base, whatever is looked at.
  const ofBase = kind === 'readings';
  return {
    kind,
    scene,
    setup: ofBase ? undefined : setupShown(editor),
    camera: ofBase ? undefined : cameraShown(editor)?.id,
    asked: askedOf(kind, answers),
  };
}

const WITH_CURES: AskedOf<'glints'> = { cures: true };
const WITHOUT_CURES: AskedOf<'glints'> = { cures: false };

/** Cures are for the panel to show; over the frame glints stand without. */
function askedOf<K extends AnswerKind>(kind: K, { asked, open }: AnswersState): AskedOf<K> {
  const how =
    kind === 'glints' ? (open.has('glints') ? WITH_CURES : WITHOUT_CURES) : asked[kind as AskedByPanel];
  return how as AskedOf<K>;
}

/** What has to be worked out next; null where all that is open or wanted is there, was called off, or has to wait. */
export function nextAsking(editor: EditorState, answers: AnswersState): Asking | null {
  const kinds = new Set([...answers.open.keys(), ...[...answers.wanted].map((o) => OVERLAY_KINDS[o])]);
  for (const kind of IN_ORDER) {
    if (!kinds.has(kind) || (editor.gesture && !FOLLOW_MOVES.has(kind))) continue;
    const asking = askingNow(kind, editor, answers);
    if (!asking || isAnswered(asking, answers)) continue;
    if (!answers.calledOff.some((one) => isSame(one, asking))) return asking;
  }
  return null;
}

/** Whether anyone still waits for this answer. */
export function isStillAsked(asking: Asking, editor: EditorState, answers: AnswersState): boolean {
  const now = askingNow(asking.kind, editor, answers);
  const kinds = [...answers.open.keys(), ...[...answers.wanted].map((o) => OVERLAY_KINDS[o])];
  return now !== null && kinds.includes(asking.kind) && isSame(asking, now);
}

export function isSame(one: Asking, other: Asking): boolean {
  return one.kind === other.kind && one.asked === other.asked && isOfScene(one, other);
}

/**
 * What an answer on screen is worth: there is none yet (`missing`), it is of a scene or a question that has changed since
 * (`stale`), there is more of it to come (`partial`), or it is the last word (`fresh`).
 */
export type AnswerFreshness = 'missing' | 'stale' | 'partial' | 'fresh';

export function answerFreshness<K extends AnswerKind>(
  kind: K,
  editor: EditorState,
  answers: AnswersState,
): AnswerFreshness {
  const shown = answers.answers[kind] as ShownAnswer<K> | undefined;
  const now = askingNow(kind, editor, answers);
  if (!shown || !now) return 'missing';
  if (!isOfScene(shown.to, now)) return 'stale';
  if (covers(shown.to, now)) return shown.whole ? 'fresh' : 'partial';
  return kind === 'glints' ? 'partial' : 'stale';
}

/** Long ones, for which somebody asked once, are not begun anew whenever something changes. */
const ONCE: ReadonlySet<AnswerKind> = new Set(['wardrobe']);

function isAnswered(asking: Asking, { answers }: AnswersState): boolean {
  const shown = answers[asking.kind];
  if (!shown?.whole || !covers(shown.to, asking)) return false;
  return ONCE.has(asking.kind) || isOfScene(shown.to, asking);
}

function isOfScene(one: Asking, other: Asking): boolean {
  return one.scene === other.scene && one.setup === other.setup && one.camera === other.camera;
}

/** Asked alike; an answer with cures serves who wants the glints alone. */
function covers(shown: Asking, now: Asking): boolean {
  return shown.asked === now.asked || (now.kind === 'glints' && shown.asked === WITH_CURES);
}
