import { placementFrom } from '../../core/geometry/placement.ts';
import { SIDES, type Side } from '../../core/geometry/vehicle-spec.ts';
import { dot, scale, type Vec3 } from '../../core/math/vec3.ts';
import type { Command } from '../commands/command.ts';
import { entryNamed, LIBRARY } from '../library/library.ts';
import type { SceneDocument } from '../schema/document.ts';
import type { Figure } from '../schema/figure.ts';
import type { Solid, VehicleSolid } from '../schema/solid.ts';
import { intoView } from './in-view.ts';
import { newRun, type RunKind, withRun } from './opening-runs.ts';
import type { Made, Surroundings } from './recipe.ts';

const MOST_FILTERS = 12;

/**
 * A material for what is chosen: a solid's surface, a figure's skin (materials called skin) or its clothes. Null where
 * nothing chosen has one.
 */
export function giveMaterial({ document, chosen }: Surroundings, material: string): Made | null {
  const commands = chosen.flatMap((id): Command[] => {
    const solid = document.solids?.find((one) => one.id === id);
    if (solid) return solid.shape === 'pane' ? [] : [changed(id, { material })];
    const figure = document.figures?.find((one) => one.id === id);
    return figure ? [changed(id, wearing(material))] : [];
  });
  return given(commands, `${entryNamed(document.materials, LIBRARY.materials, material)?.name ?? material}`);
}

/** Skin is named for what it is, in the library and, by this rule, in documents. */
function wearing(material: string): Partial<Figure> {
  return material.startsWith('skin') ? { skin: material } : { upper: material, lower: material };
}

/** A pane for what is chosen: a pane's sheet, or all windows of a vehicle. Null where nothing chosen has one. */
export function givePane({ document, chosen }: Surroundings, pane: string): Made | null {
  const commands = chosen.flatMap((id): Command[] => {
    const solid = document.solids?.find((one) => one.id === id);
    if (solid?.shape === 'pane') return [changed(id, { pane })];
    return hasWindows(solid)
      ? [changed(id, { windows: solid.windows.map((run) => ({ ...run, pane })) })]
      : [];
  });
  return given(commands, `${entryNamed(document.panes, LIBRARY.panes, pane)?.name ?? pane}`);
}

type Windowed = VehicleSolid & { windows: readonly object[] };

function hasWindows(solid: Solid | undefined): solid is Windowed {
  return solid?.shape === 'vehicle' && (solid.windows?.length ?? 0) > 0;
}

/**
 * A row of windows or a door for the vehicle that was chosen last, in the side that it turns to the camera or, where that is
 * full, in another. Null where no vehicle is chosen or all its sides are full.
 */
export function giveOpening(surroundings: Surroundings, kind: RunKind): Made | null {
  const { document, chosen } = surroundings;
  const vehicle = document.solids?.findLast(
    (solid): solid is VehicleSolid => solid.shape === 'vehicle' && chosen.includes(solid.id),
  );
  if (!vehicle) return null;
  for (const side of sidesTowardCamera(surroundings, vehicle)) {
    const run = newRun(vehicle, kind, side, 'clear-glass');
    const word = kind === 'windows' ? 'windows' : 'a door';
    if (run)
      return given(
        [changed(vehicle.id, withRun(vehicle, kind, run))],
        `Add ${word} to ${vehicle.name ?? vehicle.id}`,
      );
  }
  return null;
}

function sidesTowardCamera(surroundings: Surroundings, { rotation_deg }: VehicleSolid): Side[] {
  const { x, z } = placementFrom([0, 0, 0], rotation_deg);
  const outward: Readonly<Record<Side, Vec3>> = {
    right: z,
    left: scale(z, -1),
    front: x,
    back: scale(x, -1),
  };
  const away = intoView(surroundings);
  return [...SIDES].sort((a, b) => dot(outward[a], away) - dot(outward[b], away));
}

/**
 * A filter before the lamps that are chosen, behind those that they have. Null where no lamp is chosen that has room for it.
 */
export function giveFilter({ document, chosen }: Surroundings, filter: string): Made | null {
  const commands = lampsChosen(document, chosen).map(({ id, filters = [] }) =>
    changed(id, { filters: [...filters, filter] }),
  );
  return given(commands, `Add ${entryNamed(document.filters, LIBRARY.filters, filter)?.name ?? filter}`);
}

function lampsChosen(document: SceneDocument, chosen: readonly string[]) {
  return (document.lamps ?? []).filter(
    ({ id, filters }) => chosen.includes(id) && (filters?.length ?? 0) < MOST_FILTERS,
  );
}

function changed(id: string, patch: object): Command {
  return { do: 'change', id, patch };
}

/** What is chosen stays chosen. */
function given(commands: readonly Command[], step: string): Made | null {
  return commands.length > 0 ? { commands, chosen: [], step } : null;
}
