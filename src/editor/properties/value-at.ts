import type { Path } from '../../scene/problems/problem.ts';

/** The data with another value at a path, undefined to take it away; what the path does not touch is shared. */
export function withValueAt(data: unknown, path: Path, value: unknown): unknown {
  const [step, ...rest] = path;
  if (step === undefined) return value;
  if (typeof step === 'number') {
    const list = Array.isArray(data) ? data : [];
    if (rest.length === 0 && value === undefined) return list.toSpliced(step, 1);
    return list.with(step, withValueAt(list[step], rest, value));
  }
  const { [step]: old, ...others } = (data ?? {}) as Record<string, unknown>;
  const now = withValueAt(old, rest, value);
  if (now === undefined) return others;
  return old === undefined && !Object.hasOwn((data ?? {}) as object, step)
    ? { ...others, [step]: now }
    : Object.fromEntries(
        Object.entries(data as object).map(([key, entry]) => [key, key === step ? now : entry]),
      );
}
