import { z } from 'zod';

// Imported before any schema is made: the page's content policy forbids building functions from text, and zod would
// otherwise try to, which the browser reports as a violation.
z.config({ jitless: true });
