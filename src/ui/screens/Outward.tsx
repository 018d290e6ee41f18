/** What of practice may leave the device: both are made of the same, and loaded as one. */
export { Record } from './Record.tsx';
export { Report } from './Report.tsx';
