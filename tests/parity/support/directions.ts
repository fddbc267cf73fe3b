/** A direction evenly over the sphere. */
export function unitVector(draw: () => number): [number, number, number] {
  const z = 2 * draw() - 1;
  return around(z, draw());
}

/** A direction above the surface, every other one grazing: down to 1e-5 rad. */
export function upward(draw: () => number): [number, number, number] {
  return around(draw() < 0.5 ? Math.max(1e-6, draw()) : 10 ** (-5 * draw()), draw());
}

function around(z: number, turn: number): [number, number, number] {
  const level = Math.sqrt(1 - z * z);
  return [level * Math.cos(2 * Math.PI * turn), level * Math.sin(2 * Math.PI * turn), z];
}
