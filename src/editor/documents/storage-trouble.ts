/** What to tell the person when the browser does not keep the scene. */
export function storageTrouble(error: unknown): string {
  const full = (error as { name?: unknown } | null)?.name === 'QuotaExceededError';
  const reason = full
    ? 'its storage is full; take scenes away under File, Kept scenes…'
    : 'its storage is off or forbidden';
  return `This browser does not keep the scene: ${reason}. Save it as a file before you leave.`;
}
