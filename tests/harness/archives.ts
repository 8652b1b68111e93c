/** What is in an archive, read without a tool: zip files and gzipped tar files, by path. */
import { gunzipSync, inflateRawSync } from 'node:zlib';

/** Files of a zip archive by name, read from its directory at the end. */
export function readZip(bytes: Buffer): Map<string, Buffer> {
  const files = new Map<string, Buffer>();
  const end = bytes.lastIndexOf(Buffer.from([0x50, 0x4b, 5, 6]));
  let at = bytes.readUInt32LE(end + 16);
  for (let left = bytes.readUInt16LE(end + 10); left > 0; left--) {
    const [packed, nameLength, extra, comment] = [
      bytes.readUInt32LE(at + 20),
      bytes.readUInt16LE(at + 28),
      bytes.readUInt16LE(at + 30),
      bytes.readUInt16LE(at + 32),
    ];
    const local = bytes.readUInt32LE(at + 42);
    const name = bytes.toString('utf8', at + 46, at + 46 + nameLength);
    const start = local + 30 + bytes.readUInt16LE(local + 26) + bytes.readUInt16LE(local + 28);
    const data = bytes.subarray(start, start + packed);
    files.set(name, bytes.readUInt16LE(at + 10) === 8 ? inflateRawSync(data) : data);
    at += 46 + nameLength + extra + comment;
  }
  return files;
}

/** Files of a gzipped tar archive by name. Only plain files are known; anything else is an error. */
export function readTarball(bytes: Buffer): Map<string, Buffer> {
  const tar = gunzipSync(bytes);
  const files = new Map<string, Buffer>();
  for (let at = 0; at < tar.length && tar[at] !== 0;) {
    const field = (from: number, to: number): string => tar.toString('utf8', at + from, at + to).replace(/\0.*/s, '');
    const size = Number.parseInt(field(124, 136), 8);
    const kind = field(156, 157);
    const prefix = field(345, 500);
    const name = (prefix === '' ? '' : `${prefix}/`) + field(0, 100);
    if (kind !== '0' && kind !== '') throw new Error(`${name} is no plain file but of kind “${kind}”`);
    files.set(name, tar.subarray(at + 512, at + 512 + size));
    at += 512 + Math.ceil(size / 512) * 512;
  }
  return files;
}
