import { expose } from 'comlink';
import { sheetFile } from './contact-sheet.ts';

expose({ sheetFile });
