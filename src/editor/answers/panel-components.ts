export { Glints } from './glints.tsx';
export { Lens } from './lens.tsx';
export { MeterBack } from './meter-back.tsx';
export { NightSky } from './night-sky.tsx';
export { Power } from './power.tsx';
export { Separation } from './separation.tsx';
export { Stands } from './stands.tsx';
export { Walk } from './walk.tsx';
