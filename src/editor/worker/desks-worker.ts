import { expose, proxy } from 'comlink';
import { newFrameDesk } from '../frame/frame-desk.ts';
import { newReadingDesk } from './reading-desk.ts';

/**
 * What the page needs at once, in one script that is fetched and read once: each worker that is started of it serves at one of
 * the desks.
 */
const desks = { reading: proxy(newReadingDesk()), frame: proxy(newFrameDesk()) };
export type Desks = typeof desks;

expose(desks);
