import type { Solid } from '../schema/solid.ts';

type WithoutPlace<S> = S extends Solid ? Omit<S, 'id' | 'name' | 'position_m' | 'rotation_deg'> : never;
export type SolidBody = WithoutPlace<Solid>;

/** A thing of the set in a size that is usual for it: common practice, no source, and there to be changed. */
export interface GenericSolid {
  readonly id: string;
  readonly name: string;
  readonly about: string;
  readonly also?: readonly string[];
  readonly body: SolidBody;
  /** Of its lowest point over the ground that it is put on; a ground has its top there instead. */
  readonly lift_m?: number;
  readonly ground?: true;
  /** Whether its front turns to the camera; else it stays square to the plan. */
  readonly facesCamera?: true;
}

export const GENERIC_SOLIDS: readonly GenericSolid[] = [
  {
    id: 'ground',
    name: 'Ground',
    about: '60 × 60 m of dry asphalt: light bounces off it, shafts land on it',
    also: ['floor', 'street', 'yard'],
    body: { shape: 'box', size_m: [60, 0.2, 60], material: 'asphalt-dry' },
    ground: true,
  },
  {
    id: 'wet-ground',
    name: 'Wet ground',
    about: '60 × 60 m of wet asphalt, which mirrors lamps at low angles',
    also: ['floor', 'street', 'rain', 'yard'],
    body: { shape: 'box', size_m: [60, 0.2, 60], material: 'asphalt-wet' },
    ground: true,
  },
  {
    id: 'water',
    name: 'Water',
    about: '80 × 40 m of dark water, 1.2 m down',
    also: ['harbour', 'river', 'pool'],
    body: { shape: 'box', size_m: [80, 0.2, 40], material: 'water-dark' },
    ground: true,
    lift_m: -1.2,
  },
  {
    id: 'platform',
    name: 'Platform',
    about: '12 × 3 m, 0.9 m high',
    also: ['dock', 'quay', 'riser'],
    body: { shape: 'box', size_m: [12, 0.9, 3], material: 'concrete' },
  },
  {
    id: 'deck',
    name: 'Stage deck',
    about: '2 × 1 m, 0.4 m high',
    also: ['platform', 'riser', 'rostrum'],
    body: { shape: 'box', size_m: [2, 0.4, 1], material: 'timber-dark' },
  },
  {
    id: 'wall',
    name: 'Wall',
    about: '6 × 3 m of brick, thin as a sheet',
    also: ['panel', 'facade'],
    body: { shape: 'panel', size_m: [6, 3], material: 'brick-red' },
    facesCamera: true,
  },
  {
    id: 'window-wall',
    name: 'Wall with a window hole',
    about: '5 × 3 m with an opening of 1.4 × 1.2 m; put a pane before it for glass',
    also: ['window', 'opening', 'facade'],
    body: {
      shape: 'panel',
      size_m: [5, 3],
      material: 'matte-white',
      openings: [{ left_m: 1.8, bottom_m: 0.9, width_m: 1.4, height_m: 1.2 }],
    },
    facesCamera: true,
  },
  {
    id: 'door-wall',
    name: 'Wall with a doorway',
    about: '5 × 3 m with an opening of 1 × 2.1 m',
    also: ['door', 'opening'],
    body: {
      shape: 'panel',
      size_m: [5, 3],
      material: 'matte-white',
      openings: [{ left_m: 2, bottom_m: 0, width_m: 1, height_m: 2.1 }],
    },
    facesCamera: true,
  },
  {
    id: 'glass',
    name: 'Glass pane',
    about: '1.4 × 1.2 m of clear glass',
    also: ['window', 'pane'],
    body: { shape: 'pane', size_m: [1.4, 1.2], pane: 'clear-glass' },
    lift_m: 0.9,
    facesCamera: true,
  },
  {
    id: 'diffusion-frame',
    name: 'Diffusion frame',
    about: '1.2 × 1.2 m of heavy diffusion, to be put before a lamp',
    also: ['silk', 'soft', 'pane'],
    body: { shape: 'pane', size_m: [1.2, 1.2], pane: 'diffusion-heavy' },
    lift_m: 1,
    facesCamera: true,
  },
  {
    id: 'net-frame',
    name: 'Net',
    about: '1.2 × 1.2 m of black net: takes half a stop off what is behind it',
    also: ['scrim', 'pane'],
    body: { shape: 'pane', size_m: [1.2, 1.2], pane: 'net-black' },
    lift_m: 1,
    facesCamera: true,
  },
  {
    id: 'flag',
    name: 'Flag',
    about: '0.9 × 0.6 m of black cloth, to cut light off',
    also: ['cutter', 'black'],
    body: { shape: 'panel', size_m: [0.9, 0.6], material: 'black-cloth' },
    lift_m: 1.4,
    facesCamera: true,
  },
  {
    id: 'bounce-board',
    name: 'Bounce board',
    about: '1.2 × 1.2 m of white card',
    also: ['reflector', 'poly', 'fill', 'white'],
    body: { shape: 'panel', size_m: [1.2, 1.2], material: 'white-card' },
    lift_m: 0.8,
    facesCamera: true,
  },
  {
    id: 'grey-card',
    name: 'Grey card',
    about: '0.3 × 0.3 m of 18 % grey, for the spot meter',
    also: ['card', 'reference'],
    body: { shape: 'panel', size_m: [0.3, 0.3], material: 'grey-card' },
    lift_m: 1.4,
    facesCamera: true,
  },
  {
    id: 'backdrop',
    name: 'Black drape',
    about: '6 × 4 m of black velvet, to hide what is behind',
    also: ['cloth', 'curtain', 'backing'],
    body: { shape: 'panel', size_m: [6, 4], material: 'velvet-black' },
    facesCamera: true,
  },
  {
    id: 'box',
    name: 'Box',
    about: '1 × 1 × 1 m',
    also: ['cube', 'crate', 'block', 'shape'],
    body: { shape: 'box', size_m: [1, 1, 1], material: 'timber-light' },
  },
  {
    id: 'trunk',
    name: 'Trunk',
    about: '0.9 × 0.5 × 0.5 m: a seat at the right height',
    also: ['case', 'seat', 'bench', 'box'],
    body: { shape: 'box', size_m: [0.9, 0.46, 0.5], material: 'timber-dark' },
  },
  {
    id: 'post',
    name: 'Post',
    about: '0.2 m thick, 3 m high',
    also: ['pole', 'column', 'cylinder', 'bollard', 'shape'],
    body: { shape: 'cylinder', radius_m: 0.1, height_m: 3, material: 'matte-black' },
  },
  {
    id: 'barrel',
    name: 'Barrel',
    about: '0.6 m thick, 0.9 m high',
    also: ['drum', 'cylinder', 'shape'],
    body: { shape: 'cylinder', radius_m: 0.3, height_m: 0.9, material: 'gloss-red' },
  },
  {
    id: 'ball',
    name: 'Ball',
    about: '0.5 m across: shows where highlights sit',
    also: ['sphere', 'shape'],
    body: { shape: 'sphere', radius_m: 0.25, material: 'gloss-white' },
  },
  {
    id: 'capsule',
    name: 'Capsule',
    about: '1.6 m long with round ends',
    also: ['tank', 'shape'],
    body: { shape: 'capsule', radius_m: 0.3, length_m: 1.6, material: 'matte-white' },
  },
];
