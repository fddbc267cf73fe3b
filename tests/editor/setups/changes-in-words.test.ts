import { describe, expect, it } from 'vitest';
import { changesInWords } from '../../../src/editor/setups/changes-in-words.ts';
import { demo } from './support.ts';

describe('what a setup changes, in words', () => {
  it('says the new value and that of the base, each with its unit', () => {
    const thick = demo.setups!.find(({ id }) => id === '1b')!;
    expect(changesInWords(demo, thick, 'metric')).toEqual([
      { id: 'haze', name: 'Haze', fields: ['Visibility 300 m, in the base 1200 m'] },
    ]);
    expect(changesInWords(demo, thick, 'imperial')[0]!.fields[0]).toContain(' ft');
  });

  it('calls things and filters by their names', () => {
    const colder = demo.setups!.find(({ id }) => id === '2')!;
    const [back, key] = changesInWords(demo, colder, 'metric');
    expect(back!.name).toBe('Backlight');
    expect(back!.fields[0]).toMatch(/^Filters Full .*, in the base /);
    expect(key!.fields[0]).toMatch(/^Level 25 %, in the base 50 %$/);
  });

  it('needs no base for a switch, and copes with what is gone', () => {
    const changes = { back: { on: false }, gone: { level: 0.5 }, key: { filters: [], notes: null } };
    expect(changesInWords(demo, { changes }, 'metric').map(({ fields }) => fields[0])).toEqual([
      'Switched off',
      'Level 50 %',
      expect.stringMatching(/^Filters none/),
    ]);
  });
});
