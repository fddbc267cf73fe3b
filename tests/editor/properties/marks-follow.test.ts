import { describe, expect, it } from 'vitest';
import { withMarksFollowing } from '../../../src/editor/properties/marks-follow.ts';
import { changeCommands, subjectOf } from '../../../src/editor/properties/subject.ts';
import { withValueAt } from '../../../src/editor/properties/value-at.ts';
import { applyCommands } from '../../../src/scene/commands/apply-command.ts';
import { quay } from './quay.ts';

/** The quay with Ada typed to another x, and where her marks stand then, less where they stood. */
function moved(path: (string | number)[], value: unknown, held: readonly string[] = []) {
  const subject = subjectOf(quay, 'ada')!;
  const after = withValueAt(subject.thing, path, value) as object;
  const changes = withMarksFollowing(quay, [{ subject, after }], (mark) => held.includes(mark));
  const { document } = applyCommands(quay, changeCommands(quay, changes));
  const way = Object.fromEntries(
    quay.marks!.map((mark, i) => [
      mark.id,
      document!.marks![i]!.position_m.map((part, axis) => Number((part - mark.position_m[axis]!).toFixed(6))),
    ]),
  );
  return { document: document!, way, count: changes.length };
}

const ADA = quay.figures!.find(({ id }) => id === 'ada')!;

describe('the marks at a figure', () => {
  it('go along when its place is typed, and no others do', () => {
    const { document, way } = moved(['position_m', 0], ADA.position_m[0] + 1.25);
    expect(document.figures!.find(({ id }) => id === 'ada')!.position_m[0]).toBe(ADA.position_m[0] + 1.25);
    expect(way['ada-face']).toEqual([1.25, 0, 0]);
    expect(way['ada-rim']).toEqual([1.25, 0, 0]);
    expect(way['ben-face']).toEqual([0, 0, 0]);
    expect(way['ben-rim']).toEqual([0, 0, 0]);
  });

  it('stay when something else of it is set, or when they are held fast', () => {
    expect(moved(['height_m'], 1.8).count).toBe(1);
    expect(moved(['position_m', 2], 3, ['ada-face']).way['ada-face']).toEqual([0, 0, 0]);
  });
});
