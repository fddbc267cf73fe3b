import { describe, expect, it } from 'vitest';
import type { Vec3 } from '../../../src/core/math/vec3.ts';
import { bodyOutline } from '../../../src/editor/plan/shapes/body-outline.ts';
import { ghostsOf } from '../../../src/editor/plan/shapes/ghosts.ts';
import { catalogue } from '../../../src/scene/building/catalogue.ts';
import type { Solid } from '../../../src/scene/schema/solid.ts';
import { quay } from '../properties/quay.ts';

const AT: Vec3 = [3, 0, -4];
const surroundings = { document: quay, chosen: [], camera: quay.cameras![0] };
const placed = catalogue(quay).filter(
  (recipe) => recipe.points.length > 0 && recipe.lacking(surroundings) === null,
);

describe('what is in hand, drawn before it is put down', () => {
  it('shows of everything that has a place on the plan where it would stand', () => {
    expect(placed.length).toBeGreaterThan(20);
    for (const recipe of placed) {
      const points = recipe.points.map((_, i): Vec3 => [AT[0] + 2 * i, 0, AT[2] + i]);
      const ghosts = recipe.make(surroundings, points).commands.flatMap(ghostsOf);
      expect(ghosts.length, recipe.id).toBeGreaterThan(0);
      for (const { d, at } of ghosts) expect(Boolean(d) || at !== undefined, recipe.id).toBe(true);
    }
  });

  it('is the outline that the thing has when it stands there', () => {
    const bus = placed.find(({ group }) => group === 'Vehicles')!;
    const { commands } = bus.make(surroundings, [AT]);
    const [add] = commands.flatMap((command) =>
      command.do === 'add' && command.to === 'solids' ? [command] : [],
    );
    // Identity: the ghost is drawn by what draws the thing itself.
    expect(commands.flatMap(ghostsOf)[0]!.d).toBe(bodyOutline(add!.thing as Solid, 'plan').body);
  });
});
