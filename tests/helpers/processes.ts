import { readdirSync, readFileSync } from 'node:fs';

interface Process {
  readonly pid: number;
  readonly parent: number;
  readonly command: string;
}

/** All processes that can be read, from /proc. */
const processes = (): Process[] =>
  readdirSync('/proc').flatMap((name) => {
    if (!/^\d+$/.test(name)) return [];
    try {
      // After the name in brackets, which may hold anything: state, parent.
      const parent = Number(readFileSync(`/proc/${name}/stat`, 'latin1').split(') ').at(-1)?.split(' ')[1]);
      const command = readFileSync(`/proc/${name}/cmdline`, 'utf8').replaceAll('\0', ' ');
      return [{ pid: Number(name), parent, command }];
    } catch {
      // Ended while we looked.
      return [];
    }
  });

/** The ids of the processes whose command names the text, and of all that descend from them. */
export const treeOf = (text: string): number[] => {
  const all = processes();
  const found = new Set(all.filter((one) => one.command.includes(text)).map((one) => one.pid));
  for (let before = -1; before !== found.size; ) {
    before = found.size;
    for (const one of all) if (found.has(one.parent)) found.add(one.pid);
  }
  found.delete(process.pid);
  return [...found];
};
