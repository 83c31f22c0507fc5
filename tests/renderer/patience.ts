import { configure } from '@testing-library/svelte';

/** What is waited for in a page comes when it comes: on a busy machine a second is soon gone. */
configure({ asyncUtilTimeout: 15_000 });
