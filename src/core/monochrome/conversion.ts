import type { LinearRgb } from '../picture/linear-rgb.ts';

/**
 * What a monochrome picture makes of a colour: grey from linear RGB after white balance, in the same unit. A neutral keeps
 * its luminance in every conversion, so none of them is an exposure change. A grey below zero is black.
 */
export type MonochromeConversion = (balanced: LinearRgb) => number;
