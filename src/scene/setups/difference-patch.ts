/**
 * The merge patch (RFC 7396) that makes `after` of `before`; undefined where they are equal. Lists are replaced whole, as
 * merge patches do. A field that is to become null cannot be told from one that goes: documents hold no null.
 */
export function differencePatch(before: unknown, after: unknown): unknown {
  if (Object.is(before, after)) return undefined;
  if (Array.isArray(before) && Array.isArray(after)) return sameList(before, after) ? undefined : after;
  if (!isObject(before) || !isObject(after)) return after;
  const fields = new Map<string, unknown>();
  for (const key of Object.keys(before)) if (!Object.hasOwn(after, key)) fields.set(key, null);
  for (const [key, value] of Object.entries(after)) {
    const patch = differencePatch(Object.hasOwn(before, key) ? before[key] : undefined, value);
    if (patch !== undefined) fields.set(key, patch);
  }
  return fields.size === 0 ? undefined : Object.fromEntries(fields);
}

function sameList(before: readonly unknown[], after: readonly unknown[]): boolean {
  return before.length === after.length && before.every((x, i) => differencePatch(x, after[i]) === undefined);
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
