import { expose } from 'comlink';
import { newFrameDesk } from './frame-desk.ts';

expose(newFrameDesk());
