import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { lackingFor } from '../../../src/editor/answers/lacking.ts';
import { ANSWER_KINDS } from '../../../src/editor/worker/answer-steps.ts';
import { openScene } from '../../../src/scene/file/open-scene.ts';
import { SCENES } from '../../support/command-line.ts';
import { smallScene } from '../../support/scenes.ts';

describe('what a scene lacks for a question', () => {
  it('is nothing in the demo, and something in an empty scene', () => {
    const demo = openScene(readFileSync(join(SCENES, 'night-quay.json'), 'utf8')).document!;
    for (const kind of ANSWER_KINDS) {
      expect(lackingFor(kind, demo), kind).toBeNull();
      expect(lackingFor(kind, { keyfall: 1, title: 'Empty' }), kind).toMatch(/^(No|The scene).*\.$/);
      expect(lackingFor(kind, undefined), kind).toBe('No scene is open.');
    }
  });

  it('is a lamp that is lit, where all are off', () => {
    const [lamp] = smallScene().lamps!;
    const dark = { ...smallScene(), lamps: [{ ...lamp!, on: false }] };
    expect(lackingFor('glints', dark)).toMatch(/No lamp is lit/);
    expect(lackingFor('power', dark)).toBeNull();
  });

  it('is someone who walks, where only a camera moves', () => {
    const points = [
      { t_s: 0, position_m: [0, 1, 5] as [number, number, number] },
      { t_s: 2, position_m: [0, 1, 4] as [number, number, number] },
    ];
    expect(lackingFor('walk', { ...smallScene(), paths: [{ id: 'in', of: 'a', points }] })).toMatch(
      /Nobody walks/,
    );
    expect(lackingFor('walk', { ...smallScene(), paths: [{ id: 'by', of: 'walker', points }] })).toBeNull();
  });
});
