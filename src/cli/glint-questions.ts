import { clearRegionSheet } from '../paperwork/clear-region-sheet.ts';
import { glintRunSheet } from '../paperwork/glint-run-sheet.ts';
import { chosenCamera } from '../scene/camera/scene-camera.ts';
import { glintsAlongPath } from '../scene/mirror/along-path.ts';
import { clearRegionOf } from '../scene/mirror/clear-region.ts';
import { namedIn } from '../scene/mirror/named-in.ts';
import type { OptionValues, Streams } from './command.ts';
import { DONE, NO } from './exit.ts';
import type { OpenedSet } from './opened-set.ts';
import { UsageError } from './usage-error.ts';

/** Where on plan a lamp may stand without a glint. The answer is no where it may stand nowhere. */
export function answerClearRegion(
  { document, model }: OpenedSet,
  lampId: string,
  values: OptionValues,
  streams: Streams,
): number {
  const camera = chosenCamera(document, values.camera as string | undefined);
  const lamp = namedIn(document, 'lamps', lampId);
  const region = clearRegionOf(
    { document, model, camera },
    {
      lamp: lampId,
      solids: values.solid as readonly string[] | undefined,
      mark: values.mark as string | undefined,
      ...rectangleFrom(values.within as string | undefined),
    },
  );
  const sheet = clearRegionSheet(region, lamp.name ?? lamp.id, namesOf(model));
  if (values.json) streams.out(JSON.stringify({ ...about(document.title, values), clearRegion: region }));
  else streams.out(sheetText(document.title, sheet));
  return region.clear_m2 > 0 ? DONE : NO;
}

/** When along a move lamps burn in frame. The answer is no where any does. */
export function answerAlong(
  { document, model }: OpenedSet,
  pathId: string,
  values: OptionValues,
  streams: Streams,
): number {
  const camera = chosenCamera(document, values.camera as string | undefined);
  const along = glintsAlongPath({ document, model, camera }, pathId);
  const names = namesOf(model);
  const cameraName = (document.cameras ?? []).find(({ id }) => id === along.moves.id)?.name;
  const sheet = glintRunSheet(along, (id) => (id === along.moves.id && cameraName) || names(id));
  if (values.json) streams.out(JSON.stringify({ ...about(document.title, values), along }));
  else streams.out(sheetText(document.title, sheet));
  return along.runs.length > 0 ? NO : DONE;
}

function about(title: string, values: OptionValues) {
  return { keyfall: 1, title, setup: values.setup ?? null };
}

function namesOf({ lamps, owners }: OpenedSet['model']): (id: string) => string {
  const names = new Map([...lamps, ...owners].map(({ id, name }) => [id, name]));
  return (id) => names.get(id) ?? id;
}

function sheetText(
  title: string,
  sheet: { heading: string; verdict: string; lines: readonly string[]; footer: readonly string[] },
): string {
  const { heading, verdict, lines, footer } = sheet;
  return [title, heading, '', verdict, ...lines.map((line) => `• ${line}`), '', ...footer].join('\n');
}

const FARTHEST_m = 10_000;
const LARGEST_m = 400;

/** `x,z,x,z`: two opposite corners. */
function rectangleFrom(text: string | undefined) {
  if (text === undefined) return {};
  const parts = text.split(',');
  const [x1, z1, x2, z2] = parts.map(Number) as [number, number, number, number];
  const good =
    parts.length === 4 && parts.every((part) => part.trim() !== '' && Math.abs(Number(part)) <= FARTHEST_m);
  const sides = [Math.abs(x2 - x1), Math.abs(z2 - z1)];
  if (!good || !sides.every((side) => side > 0 && side <= LARGEST_m))
    throw new UsageError(
      `--within ${text}: give two opposite corners in metres as x,z,x,z, at most ${LARGEST_m} m apart each way`,
    );
  return {
    low_m: [Math.min(x1, x2), Math.min(z1, z2)] as const,
    high_m: [Math.max(x1, x2), Math.max(z1, z2)] as const,
  };
}
