export { withItsMarks } from '../../scene/building/figure-marks.ts';
