import { serve } from './remote.ts';
import { createWorkshop } from './workshop.ts';

serve(createWorkshop(), self);
