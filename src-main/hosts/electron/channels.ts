/** The two messages between the desktop host and its page, named once for both ends of the preload. */
export const pipeChannel = 'undercroft:pipe';
export const menuChannel = 'undercroft:menu';
