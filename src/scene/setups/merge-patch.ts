/**
 * JSON Merge Patch, RFC 7396: objects merge field by field, null removes a field, everything else replaces. Returns a
 * new value; parts that do not change are shared with the old one. Own properties only, so `__proto__` is just a name.
 */
export function mergePatch(target: unknown, patch: unknown): unknown {
  if (!isObject(patch)) return patch;
  const base = isObject(target) ? target : {};
  const merged = new Map<string, unknown>(Object.entries(base));
  for (const [key, value] of Object.entries(patch)) {
    if (value === null) merged.delete(key);
    else merged.set(key, mergePatch(Object.hasOwn(base, key) ? base[key] : undefined, value));
  }
  return Object.fromEntries(merged);
}

function isObject(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}
