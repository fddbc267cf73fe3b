import type { AnswerKind } from '../worker/answer-kinds.ts';
import type { AnswersState, GlintOverFrame, InShotOverFrame, ShownAnswer } from './answers-state.ts';

/** What an answer gives the frame to draw over itself; nothing for answers that have no place in it. */
export function overFrame(shown: ShownAnswer): Partial<AnswersState> {
  switch (shown.to.kind) {
    case 'glints': {
      const found = (shown as ShownAnswer<'glints'>).answer;
      const items = found?.report.glints.flatMap(
        ({ pixel, stops, lamp, lampName, solid, solidName, inFrame, burns }): GlintOverFrame[] =>
          pixel ? [{ pixel, stops, lamp, lampName, solid, solidName, inFrame, burns }] : [],
      );
      return { glints: ofScene(shown, items) };
    }
    case 'separation':
      return { outlines: ofScene(shown, (shown as ShownAnswer<'separation'>).answer?.outlines) };
    case 'lens': {
      const found = (shown as ShownAnswer<'lens'>).answer;
      const items = found?.lamps.flatMap(({ id: lamp, name, practical, head, stand }): InShotOverFrame[] => [
        ...(head.seen === 'in shot' ? [{ lamp, name, what: 'head', at: head.at, practical } as const] : []),
        ...(stand?.seen === 'in shot'
          ? [{ lamp, name, what: 'stand', at: stand.at, practical } as const]
          : []),
      ]);
      return { inShot: ofScene(shown, items) };
    }
    case 'focus': {
      const found = (shown as ShownAnswer<'focus'>).answer;
      return { focus: ofScene(shown, found && [found]) };
    }
    default:
      return {};
  }
}

function ofScene<K extends AnswerKind, T>({ to }: ShownAnswer<K>, items: readonly T[] | undefined) {
  if (!items || to.camera === undefined) return null;
  return { scene: to.scene, setup: to.setup, camera: to.camera, items };
}
