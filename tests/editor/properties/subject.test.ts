import { describe, expect, it } from 'vitest';
import {
  changeCommands,
  documentSubject,
  entryKey,
  removeCommand,
  renameCommand,
  subjectOf,
} from '../../../src/editor/properties/subject.ts';
import { withValueAt } from '../../../src/editor/properties/value-at.ts';
import { applyCommand } from '../../../src/scene/commands/apply-command.ts';
import type { Command } from '../../../src/scene/commands/command.ts';
import type { SceneDocument } from '../../../src/scene/schema/document.ts';
import { quay } from './quay.ts';

function editedBy(document: SceneDocument, commands: readonly (Command | undefined)[]): SceneDocument {
  return commands.reduce<SceneDocument>((edited, command) => {
    const applied = applyCommand(edited, command!);
    expect(applied.problems).toBeUndefined();
    return applied.document!;
  }, document);
}

describe('what is chosen', () => {
  it('is found by id, section, area, and entry', () => {
    expect(subjectOf(quay, 'back')?.kind).toBe('lamps');
    expect(subjectOf(quay, 'quay-edge')?.kind).toBe('keepOut');
    expect(subjectOf(quay, 'haze')?.kind).toBe('haze');
    const boxed = {
      ...quay,
      haze: { ...quay.haze!, regions: [{ position_m: [0, 1, 0], size_m: [2, 2, 2] }] },
    };
    expect(subjectOf(boxed as SceneDocument, 'haze 1')).toMatchObject({ kind: 'haze', id: 'haze' });
    expect(subjectOf(boxed as SceneDocument, 'haze 2')).toBeUndefined();
    expect(subjectOf(quay, 'hull-gloss')?.kind).toBe('materials');
    expect(subjectOf(quay, entryKey('materials', 'hull-gloss'))?.fromLibrary).toBe(false);
    expect(subjectOf(quay, entryKey('filters', 'half-cto'))?.fromLibrary).toBe(true);
    expect(subjectOf(quay, 'half-cto')).toBeUndefined();
    expect(subjectOf(quay, 'nobody')).toBeUndefined();
    expect(subjectOf(quay, 'materials/constructor')).toBeUndefined();
  });

  it('is found where the scene has no such part yet', () => {
    const empty: SceneDocument = { keyfall: 1, title: 'Empty' };
    const site = subjectOf(empty, 'site')!;
    const edited = editedBy(
      empty,
      changeCommands(empty, [{ subject: site, after: { mains: { volts: 230, hertz: 50 } } }]),
    );
    expect(edited.site).toEqual({ mains: { volts: 230, hertz: 50 } });
  });
});

describe('a change of what is chosen', () => {
  it('touches nothing else', () => {
    const subject = subjectOf(quay, 'back')!;
    const now = withValueAt(subject.thing, ['position_m', 1], 3.5) as object;
    const edited = editedBy(quay, changeCommands(quay, [{ subject, after: now }]));
    expect(edited.lamps!.find(({ id }) => id === 'back')!.position_m[1]).toBe(3.5);
    expect(edited.solids).toEqual(quay.solids);
  });

  it('is none where nothing changes', () => {
    const subject = subjectOf(quay, 'back')!;
    expect(changeCommands(quay, [{ subject, after: { ...subject.thing } }])).toEqual([]);
  });

  it('makes an entry of the library the scene’s own', () => {
    const subject = subjectOf(quay, 'materials/concrete')!;
    const edited = editedBy(
      quay,
      changeCommands(quay, [{ subject, after: { ...subject.thing, reflectance: 0.3 } }]),
    );
    expect(edited.materials!.concrete).toEqual({ name: 'Concrete', reflectance: 0.3 });
    expect(subjectOf(edited, 'materials/concrete')!.fromLibrary).toBe(false);
  });

  it('of two areas keeps both', () => {
    const changes = ['quay-edge', 'far-edge'].map((id) => {
      const subject = subjectOf(quay, id)!;
      return { subject, after: { ...subject.thing, name: `New ${id}` } };
    });
    const edited = editedBy(quay, changeCommands(quay, changes));
    expect(edited.site!.keepOut!.map(({ name }) => name)).toEqual(['New quay-edge', 'New far-edge']);
  });

  it('of words is a description, and notes can go', () => {
    const subject = documentSubject(quay);
    const edited = editedBy(
      quay,
      changeCommands(quay, [{ subject, after: withValueAt(quay, ['notes'], undefined) as object }]),
    );
    expect(edited.notes).toBe('');
    expect(edited.title).toBe(quay.title);
  });

  it('renames and removes, what names it following', () => {
    const renamed = editedBy(quay, [renameCommand(quay, subjectOf(quay, 'hull-gloss')!, 'sea-green')]);
    expect(renamed.solids!.find(({ id }) => id === 'boat')).toMatchObject({ material: 'sea-green' });
    const area = editedBy(quay, [renameCommand(quay, subjectOf(quay, 'quay-edge')!, 'edge-one')]);
    expect(area.site!.keepOut![0]!.id).toBe('edge-one');
    const first = editedBy(quay, [removeCommand(quay, subjectOf(quay, 'quay-edge')!)]);
    const none = editedBy(first, [removeCommand(first, subjectOf(first, 'far-edge')!)]);
    expect(none.site!.keepOut).toBeUndefined();
    expect(removeCommand(quay, subjectOf(quay, 'materials/concrete')!)).toBeUndefined();
  });
});

describe('a value at a path', () => {
  it('is put, replaced and taken away, all else shared', () => {
    const data = { a: { b: [1, 2, 3] }, c: { d: 1 } };
    const put = withValueAt(data, ['a', 'b', 1], 9) as typeof data;
    expect(put).toEqual({ a: { b: [1, 9, 3] }, c: { d: 1 } });
    expect(put.c).toBe(data.c);
    expect(withValueAt(data, ['c', 'd'], undefined)).toEqual({ a: data.a, c: {} });
    expect(withValueAt(data, ['a', 'b', 0], undefined)).toEqual({ a: { b: [2, 3] }, c: data.c });
    expect(withValueAt(undefined, ['x', 'y'], 1)).toEqual({ x: { y: 1 } });
    expect(Object.keys(withValueAt({ a: 1, b: 2, c: 3 }, ['b'], 5) as object)).toEqual(['a', 'b', 'c']);
    expect(withValueAt({ a: 1 }, [], 2)).toBe(2);
  });
});
