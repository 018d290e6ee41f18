import { rolldown } from 'rolldown';

/** A TypeScript file as one script for a page under test, with `import.meta.env.PROD` true. */
export const bundle = async (input: string): Promise<string> => {
  const build = await rolldown({
    input,
    platform: 'browser',
    logLevel: 'warn',
    transform: {
      define: {
        'import.meta.env.PROD': 'true',
        'import.meta.url': 'location.href',
        'process.env.NODE_ENV': '"production"',
      },
    },
  });
  const { output } = await build.generate({ format: 'iife', codeSplitting: false });
  await build.close();
  return output[0].code;
};
