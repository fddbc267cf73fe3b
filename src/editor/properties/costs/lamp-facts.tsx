import { useDeferredValue, useMemo } from 'react';
import { thirdsText } from '../../../core/exposure/thirds.ts';
import { zeroOf } from '../../../core/exposure/zero.ts';
import { CAUTIONS } from '../../../paperwork/cautions.ts';
import { readingText } from '../../../paperwork/exposure-sheet.ts';
import { calibrationOf, exposureOf } from '../../../scene/camera/scene-camera.ts';
import { entryNamed, LIBRARY } from '../../../scene/library/library.ts';
import { drawOf, lampLoads } from '../../../scene/power/lamp-load.ts';
import { limitOf } from '../../../scene/power/supply-limit.ts';
import { standScreen } from '../../../scene/rigging/stand-screen.ts';
import type { Lamp } from '../../../scene/schema/lamp.ts';
import { standHeight } from '../../../scene/stands/stand-height.ts';
import { lengthText } from '../../figures/length-text.ts';
import { useSheet } from '../../panels/use-sheet.ts';
import { cameraShown, documentShown, readingFreshness } from '../../store/shown-scene.ts';
import { useEditor } from '../../store/use-editor.ts';
import { useTaste } from '../desk.tsx';
import type { FactsProps } from '../field.ts';
import { useThing } from '../use-thing.ts';
import { aboutLength } from './about-length.ts';
import { beamWidth_m } from './beam-width.ts';
import { Caution, Fact, Facts } from './facts.tsx';
import { kelvinText } from './filter-cost.ts';
import { colourOfLamp } from './lamp-colour-behind.ts';
import { lightAtAim } from './light-at-aim.ts';
import { stopsWord } from './stops-word.ts';

/** Throw, beam and light of a lamp at the point it is aimed at, and what it gives to the mark that is looked at. */
export function LampLightFacts({ id }: FactsProps) {
  const lamp = useThing<Lamp>(id);
  const document = useEditor(documentShown);
  const look = useEditor((state) => state.looks.get(id));
  const camera = useEditor(cameraShown);
  const { lengths, unit } = useTaste();
  const asked = useDeferredValue(lamp);
  const { heads, filters, haze } = document ?? {};
  const light = useMemo(
    () => (asked ? lightAtAim({ heads, filters, haze }, asked) : null),
    [heads, filters, haze, asked],
  );
  if (!lamp || !document) return null;
  const distance_m = Math.hypot(...lamp.aim_m.map((v, i) => v - lamp.position_m[i]!));
  const colour = colourOfLamp(document, lamp);
  const zero = camera && zeroOf(exposureOf(camera), calibrationOf(document));
  const stops = light && zero ? Math.log2(light.illuminance_lx / zero.flat_lx) : null;

  return (
    <Facts>
      <Fact name="Throw">{lengthText(distance_m, lengths)}</Fact>
      {look && (
        <Fact name="Beam there" note={`between the edges at 50\u00a0%; at 10\u00a0%`}>
          {widthText(look.beam.mean_deg, distance_m, lengths)};{' '}
          {widthText(look.field.mean_deg, distance_m, lengths)}
        </Fact>
      )}
      {light && (
        <Fact
          name="Light there"
          note={`±${light.uncertainty_stops.toFixed(1)} stop, flat cell toward the lamp, nothing in its way`}
        >
          {readingText(light.illuminance_lx, unit)} {unit}
          {stops !== null && `, ${stopsWord(thirdsText(stops))}`}
          {lamp.on === false && ' if it were on'}
        </Fact>
      )}
      <AtMark id={id} />
      {!lamp.filters?.length && <Fact name="Colour">{kelvinText(colour?.cct_K ?? null)}</Fact>}
    </Facts>
  );
}

function widthText(angle_deg: number, distance_m: number, lengths: 'metric' | 'imperial'): string {
  const width_m = beamWidth_m(angle_deg, distance_m);
  return width_m === null ? 'open to the side' : aboutLength(width_m, lengths);
}

/** The mark that gets most of it: what the lamp is there for. */
function AtMark({ id }: FactsProps) {
  const shown = useSheet();
  const freshness = useEditor(readingFreshness);
  if (!shown) return null;
  const { sheet, report } = shown;
  const given_lx = report.marks.map(({ lamps }) => lamps.find((lamp) => lamp.id === id)?.illuminance_lx ?? 0);
  const row = sheet.rows[given_lx.indexOf(Math.max(...given_lx))];
  const part = row?.lamps.find((one) => one.id === id);
  if (!row || !part) return null;
  return (
    <Fact
      name="Most at"
      note={freshness === 'fresh' ? undefined : 'not the last word'}
      stale={freshness === 'stale'}
    >
      <bdi>{row.name}</bdi>: {part.reading} {sheet.unit}, {stopsWord(part.stops)}
    </Fact>
  );
}

/** How high a lamp is over what it stands on, whether its stand reaches, and what the wind asks for. */
export function LampStandFacts({ id }: FactsProps) {
  const lamp = useThing<Lamp>(id);
  const document = useEditor(documentShown);
  const ground = useEditor((state) => state.grounds.get(id));
  const { lengths } = useTaste();
  if (!lamp || !document || !ground) return null;
  const stand = standHeight(lamp, ground.level_m);
  const head = entryNamed(document.heads, LIBRARY.heads, lamp.head);
  const wind = document.site?.wind;
  const wind_m_s = wind ? (wind.gust_m_s ?? wind.speed_m_s) : null;
  const screen = head && standScreen(lamp, head, { ground_m: ground.level_m, inVehicle: false }, wind_m_s);
  return (
    <>
      <Facts>
        <Fact name="Over its ground" note={ground.on === null ? 'nothing modelled below: y = 0' : undefined}>
          {lengthText(stand.height_m, lengths)}
          {ground.on !== null && (
            <>
              {' '}
              over <bdi>{ground.on}</bdi>
            </>
          )}
        </Fact>
        {screen?.onStand && screen.neededBallast_kg !== null && (
          <Fact name="Ballast wanted" note="on level ground, no safety factor">
            {screen.neededBallast_kg > 0 ? `${Math.ceil(screen.neededBallast_kg)} kg` : 'none'} at {wind_m_s}{' '}
            m/s
            {screen.moreBallast_kg! > 0 && `, ${Math.ceil(screen.moreBallast_kg!)} kg missing`}
          </Fact>
        )}
      </Facts>
      {stand.tooHigh && (
        <Caution>
          Higher than its stand goes ({lengthText(stand.maxHeight_m!, lengths)}):{' '}
          {lengthText(stand.height_m, lengths)} over{' '}
          {ground.on === null ? 'y = 0, as nothing is modelled below it' : <bdi>{ground.on}</bdi>}.
        </Caution>
      )}
      {screen?.tips && <Caution>The wind would tip it. {CAUTIONS.stands[1]}</Caution>}
    </>
  );
}

/** What a lamp draws, and what its supply carries with it. */
export function LampElectricFacts({ id }: FactsProps) {
  const lamp = useThing<Lamp>(id);
  const document = useEditor(documentShown);
  if (!lamp || !document) return null;
  const head = entryNamed(document.heads, LIBRARY.heads, lamp.head);
  const supply = document.supplies?.find((one) => one.id === lamp.supply);
  const draw = head && drawOf(head, supply?.kind === 'battery');
  const volts = supply?.volts ?? document.site?.mains?.volts;
  if (!draw) {
    return (
      <Facts>
        <Fact name="Draws">not known: its head says nothing of it</Fact>
      </Facts>
    );
  }
  const limit = supply && limitOf(supply);
  const loads = supply ? lampLoads(document).filter((load) => load.on && load.supply === supply.id) : [];
  const total_VA = loads.reduce((sum, load) => sum + (load.draw?.load_VA ?? 0), 0);
  const total_A = supply && total_VA / supply.volts / (supply.phases ?? 1);
  const over = limit !== undefined && limit !== null && total_A! > limit.limit_A + 1e-9;
  return (
    <>
      <Facts>
        <Fact
          name="Draws"
          note={`at full, power factor ${draw.powerFactor}${draw.assumed ? ' assumed: none given' : ''}`}
        >
          {volts ? `${(draw.load_VA / volts).toFixed(1)} A at ${volts} V, ` : ''}
          {Math.round(draw.load_W)} W
        </Fact>
        {supply && limit && (
          <Fact name="Its supply" note={supply.phases === 3 ? 'mean of three phases' : undefined}>
            {total_A!.toFixed(1)} A of {limit.limit_A.toFixed(1)} A for hours
          </Fact>
        )}
      </Facts>
      {over && <Caution>More than its supply carries for hours. {CAUTIONS.electrical[0]}</Caution>}
    </>
  );
}
