/**
 * How a surface reflects: a matt base, a matt base under a clear coat, or a bare metal.
 *
 *   matt    f = ρ/π
 *   coated  f = F·D·G₂/(4c_i·c_o) + (ρ/π)·(1 − E(θ_i))(1 − E(θ_o))/(1 − Ē),  F of a dielectric of index n
 *   metal   f = F·D·G₂/(4c_i·c_o),  F of a conductor n + ik for each of red, green and blue
 *
 * D, G₂ are GGX with α = roughness² (ggx.ts), E is the coat's directional albedo and Ē its cosine-weighted mean
 * (directional-albedo.ts). The base term follows C. Kelemen & L. Szirmay-Kalos, A microfacet based coupled
 * specular-matte BRDF model, Eurographics 2001: the coat lets 1 − E(θ_o) through to the base. A reciprocal base term
 * must be ρ·(1 − E(θ_i))(1 − E(θ_o))·C, and a white base must give back all that reaches it, so
 *   C·(1 − E(θ_o))·∫(1 − E(θ_i))·c_i dω_i = C·(1 − E(θ_o))·π(1 − Ē) = 1 − E(θ_o),  C = 1/(π(1 − Ē)).
 * Hence the albedo is E(θ) + ρ(1 − E(θ)): 1 for a white base at every angle, and never above. The error of the tables
 * leaves 0.9990 to 1.0014 of that, measured over roughness 0 to 1, n up to 4 and angles up to 89.99°.
 *
 * Conventions: i to the light, o to the eye, unit vectors in local coordinates with z along the normal, both on the +z
 * side; f in 1/sr, without the cosine. Linear RGB (IEC 61966-2-1).
 * Known limits: ρ is the base as it looks through its coat, so the darkening by reflections back down from under the
 * coat is in the figure, not in the model; a rough metal lacks the light of second bounces (ggx.ts); the coat absorbs
 * nothing; no interference, no anisotropy (brushed metal streaks), no fluorescence.
 */
import type { Vec3 } from '../math/vec3.ts';
import { luminanceOfRgb } from '../picture/linear-rgb.ts';
import { type AlbedoTable, albedoTables } from './directional-albedo.ts';
import { conductorReflectance, dielectricReflectance } from './fresnel.ts';
import { alphaOfRoughness } from './ggx.ts';
import type { MetalIndex } from './metal-index.ts';

/** A surface made ready. Plain numbers and arrays, so that it can be sent to a worker. */
export interface SurfaceOptics {
  readonly kind: 'matt' | 'coated' | 'metal';
  /** It has a coat or is a metal. */
  readonly glossy: boolean;
  /** ρ; zero for a metal. */
  readonly baseRgb: Float64Array;
  readonly baseLuminance: number;
  /** α of the coat or the metal; says nothing about a matt surface. */
  readonly alpha: number;
  /** n of the coat; 1 without one. */
  readonly coatIor: number;
  /** n and k of the metal for red, green and blue; zero without one. */
  readonly metalN: Float64Array;
  readonly metalK: Float64Array;
  /** E of the coat (one table), of the metal (red, green, blue), or none. */
  readonly albedo: readonly AlbedoTable[];
  /** 1/(1 − Ē) of the coat; 1 without one, 0 for a metal, which has no base. */
  readonly baseScale: number;
}

export interface SurfaceDescription {
  /** Linear RGB, 0..1, of the base; of no account under a metal. */
  readonly reflectance: Vec3;
  readonly metal: MetalIndex | null;
  /** Of the coat or the metal, 0..1, 0 a mirror. */
  readonly roughness: number;
  /** Refractive index of the coat, 1 or more; null without one. Of no account on a metal, which is bare. */
  readonly coatIor: number | null;
}

/** Precomputes a surface: milliseconds when glossy. RangeError when a number is out of the range stated above. */
export function surfaceOptics(surface: SurfaceDescription): SurfaceOptics {
  checkDescription(surface);
  const { reflectance, metal, roughness, coatIor } = surface;
  const alpha = alphaOfRoughness(roughness);
  if (metal) return metalOptics(metal, alpha);
  const matt: SurfaceOptics = {
    kind: 'matt',
    glossy: false,
    baseRgb: Float64Array.from(reflectance),
    baseLuminance: luminanceOfRgb(reflectance),
    alpha,
    coatIor: 1,
    metalN: new Float64Array(3),
    metalK: new Float64Array(3),
    albedo: [],
    baseScale: 1,
  };
  // A coat of the index of air is no coat.
  if (coatIor === null || coatIor === 1) return matt;
  const albedo = albedoTables(alpha, [(cosTheta) => dielectricReflectance(cosTheta, coatIor)]);
  return { ...matt, kind: 'coated', glossy: true, coatIor, albedo, baseScale: 1 / (1 - albedo[0]!.mean) };
}

function metalOptics({ n, k }: MetalIndex, alpha: number): SurfaceOptics {
  return {
    kind: 'metal',
    glossy: true,
    baseRgb: new Float64Array(3),
    baseLuminance: 0,
    alpha,
    coatIor: 1,
    metalN: Float64Array.from(n),
    metalK: Float64Array.from(k),
    albedo: albedoTables(
      alpha,
      n.map((_, c) => (cosTheta) => conductorReflectance(cosTheta, n[c]!, k[c]!)),
    ),
    baseScale: 0,
  };
}

function checkDescription({ reflectance, metal, roughness, coatIor }: SurfaceDescription): void {
  const within = (value: number, low: number, high: number) => value >= low && value <= high;
  if (!reflectance.every((channel) => within(channel, 0, 1))) {
    throw new RangeError(`surface reflectance is ${reflectance}; give three numbers 0..1`);
  }
  if (!within(roughness, 0, 1)) {
    throw new RangeError(`surface roughness is ${roughness}; give a number 0..1, 0 for a mirror`);
  }
  if (coatIor !== null && !within(coatIor, 1, LARGEST_INDEX)) {
    throw new RangeError(
      `refractive index of the coat is ${coatIor}; give a number 1..${LARGEST_INDEX}, or null for no coat`,
    );
  }
  const indices = metal ? [...metal.n, ...metal.k] : [];
  if (metal && !(indices.every((index) => within(index, 0, LARGEST_INDEX)) && metal.n.every((n) => n > 0))) {
    throw new RangeError(
      `complex index of the metal is n ${metal.n}, k ${metal.k}; ` +
        `give n above 0 and k from 0, both up to ${LARGEST_INDEX}`,
    );
  }
}

/** No substance comes near, and squares of it stay exact enough. */
const LARGEST_INDEX = 1000;
