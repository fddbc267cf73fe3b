import { expose } from 'comlink';
import { balanceAtDesk } from './balance-desk.ts';

expose({ balance: balanceAtDesk });
