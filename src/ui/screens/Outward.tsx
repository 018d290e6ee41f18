/** What leaves the device on paper or as a file, loaded as one: the service worker holds a list of all parts. */
export { Print } from './Print.tsx';
export { Record } from './Record.tsx';
export { Report } from './Report.tsx';
