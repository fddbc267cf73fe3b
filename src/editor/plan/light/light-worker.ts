import { expose } from 'comlink';
import { newLightDesk } from './light-desk.ts';

expose(newLightDesk());
