import { render } from 'preact';
import { build } from './build.ts';
import { createUpdates } from './update.ts';

createUpdates();
const app = document.getElementById('app');
if (app !== null) render(<p>Recency {build.version}</p>, app);
