/** That an answer is not the plan's alone, where its ± stays that of the plan. */
export function correctedText(readings: number): string {
  const by = readings === 1 ? 'a reading' : `${readings} readings`;
  return `Lamps and haze as ${by} of the night would have them; ± is still that of the plan.`;
}
