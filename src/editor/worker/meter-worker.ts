import { expose } from 'comlink';
import { newReadingDesk } from './reading-desk.ts';

expose(newReadingDesk());

/** The reader of mesh files is loaded when first needed; fetched ahead, it is there when the network no longer is. */
const AFTER_FIRST_NUMBERS_ms = 4000;
setTimeout(() => void import('@gltf-transform/core').catch(() => {}), AFTER_FIRST_NUMBERS_ms);
