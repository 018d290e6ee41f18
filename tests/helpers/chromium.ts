import type { LaunchOptions } from 'playwright-core';
import { chromium as executablePath } from '../../scripts/lib/paths.mjs';

/** How every Chromium of the tests is started: the whole browser without its windows, asking nobody for anything. */
export const chromiumOptions: LaunchOptions = {
  executablePath,
  headless: false,
  args: [
    '--headless=new',
    '--no-sandbox',
    '--disable-gpu',
    '--disable-quic',
    '--no-first-run',
    '--disable-background-networking',
    '--disable-component-update',
    '--disable-sync',
  ],
  // A loaded machine takes its time.
  timeout: 60_000,
};
