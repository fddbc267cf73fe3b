import { describe, expect, it } from 'vitest';
import { fileNameOf, writeFile } from '../../../src/editor/documents/scene-file.ts';

/** A file on a disk that grants or refuses, and may fail while it is written. */
function fileOnDisk(how: { permission?: PermissionState; full?: boolean } = {}) {
  let content = 'before';
  let written_ms = 100;
  const handle = {
    name: 'quay.json',
    kind: 'file',
    requestPermission: async () => how.permission ?? 'granted',
    getFile: async () => ({ lastModified: written_ms }),
    createWritable: async () => {
      let draft = '';
      return {
        write: async (text: string) => {
          if (how.full) throw new Error('no room on the disk');
          draft += text;
        },
        close: async () => {
          content = draft;
          written_ms++;
        },
        abort: async () => {},
      };
    },
  };
  return {
    handle: handle as unknown as FileSystemFileHandle,
    content: () => content,
    touch: () => {
      written_ms += 50;
    },
  };
}

describe('a file on disk', () => {
  it('is written, and known by when that was', async () => {
    const { handle, content } = fileOnDisk();
    expect(await writeFile(handle, 'after', 100)).toEqual({
      file: { name: 'quay.json', handle, modified_ms: 101 },
    });
    expect(content()).toBe('after');
    expect(await writeFile(handle, 'again', 101)).toMatchObject({ file: { modified_ms: 102 } });
  });

  it('that something else has written since is left alone, unless that is asked for', async () => {
    const { handle, content, touch } = fileOnDisk();
    touch();
    expect(await writeFile(handle, 'after', 100)).toBe('changed on disk');
    expect(content()).toBe('before');
    expect(await writeFile(handle, 'after', null)).toHaveProperty('file');
    expect(content()).toBe('after');
  });

  it('that may not be written is not', async () => {
    const { handle, content } = fileOnDisk({ permission: 'denied' });
    expect(await writeFile(handle, 'after', 100)).toBe('not permitted');
    expect(content()).toBe('before');
  });

  it('on a full disk stays as it was', async () => {
    const { handle, content } = fileOnDisk({ full: true });
    await expect(writeFile(handle, 'after', 100)).rejects.toThrow('no room on the disk');
    expect(content()).toBe('before');
  });
});

describe('the name of a file', () => {
  it.each([
    ['Last boat', 'last-boat.json'],
    ['../../etc/passwd', 'etc-passwd.json'],
    ['夜の埠頭 2', '夜の埠頭-2.json'],
    ['???', 'scene.json'],
    ['a'.repeat(200), `${'a'.repeat(60)}.json`],
  ])('of %s', (title, name) => expect(fileNameOf(title)).toBe(name));
});
