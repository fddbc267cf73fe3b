import { expose } from 'comlink';
import { newAnswerDesk } from './answer-desk.ts';

expose(newAnswerDesk());
