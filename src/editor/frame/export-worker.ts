import { expose } from 'comlink';
import { exportFrame } from './export-frame.ts';

expose(exportFrame);
