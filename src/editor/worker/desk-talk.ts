import type { MeterReport } from '../../scene/meter/meter-scene.ts';
import type { Scene } from '../store/editor-state.ts';
import { changesSince } from './document-changes.ts';
import type { Answer, Question, ReadingDesk } from './reading-desk.ts';

type Asked = Omit<Question, 'changes' | 'beside'>;

/** Talks to one desk about one scene after another, and tells it only what is new. */
export function deskTalk(desk: ReadingDesk) {
  let told: Scene | null = null;
  return async (
    scene: Scene,
    asked: Asked,
    onReport?: (report: MeterReport) => void,
  ): Promise<Answer | null> => {
    const changes = changesSince(told?.document ?? null, scene.document);
    const beside = told?.beside === scene.beside ? {} : { beside: scene.beside };
    told = scene;
    try {
      return await desk.read({ ...asked, changes, ...beside }, onReport);
    } catch (error) {
      told = null;
      throw error;
    }
  };
}
