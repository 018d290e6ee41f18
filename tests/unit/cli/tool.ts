import { run } from '../../../src/cli/run.ts';

interface Ran {
  readonly code: number;
  readonly out: string;
  readonly err: string;
}

/** The deck tool on a machine that has these files and no others. */
export const toolWith =
  (files: Readonly<Record<string, string>>) =>
  (...args: string[]): Ran => {
    const [out, err]: [string[], string[]] = [[], []];
    const code = run(args, {
      read: (file) => {
        const text = files[file];
        if (text === undefined) throw new Error('no such file');
        return text;
      },
      out: (text) => out.push(text),
      err: (text) => err.push(text),
      today: '2026-11-25',
    });
    return { code, out: out.join('\n'), err: err.join('\n') };
  };
