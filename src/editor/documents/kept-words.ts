/** When a scene was changed last, as one would say it: "today 21:40", "yesterday 23:05", "12 Mar 20:10". */
export function whenChanged(changed_ms: number, now_ms = Date.now()): string {
  const changed = new Date(changed_ms);
  const time = changed.toLocaleTimeString('en-GB', { hour: '2-digit', minute: '2-digit' });
  const days = Math.round((startOfDay(now_ms) - startOfDay(changed_ms)) / DAY_ms);
  if (days === 0) return `today ${time}`;
  if (days === 1) return `yesterday ${time}`;
  const sameYear = changed.getFullYear() === new Date(now_ms).getFullYear();
  const date = changed.toLocaleDateString('en-GB', {
    day: 'numeric',
    month: 'short',
    ...(sameYear ? {} : { year: 'numeric' }),
  });
  return `${date} ${time}`;
}

const DAY_ms = 86_400_000;

function startOfDay(ms: number): number {
  return new Date(ms).setHours(0, 0, 0, 0);
}
