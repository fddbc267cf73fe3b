import { expose } from 'comlink';
import { newSmallFrameDesk } from './small-frame-desk.ts';

expose(newSmallFrameDesk());
