/**
 * The page a browser gets that may not come in: its pass was used, or belongs to an earlier start of the program. Plain
 * HTML in the browser's own style, since no file of the page is handed out without a pass.
 */
export const startAgainPage = `<!doctype html>
<html lang="en">
  <head>
    <meta charset="utf-8" />
    <meta name="viewport" content="width=device-width, initial-scale=1" />
    <meta name="color-scheme" content="light dark" />
    <link rel="icon" href="data:," />
    <title>Start again – Undercroft</title>
  </head>
  <body>
    <main>
      <h1>Start Undercroft again</h1>
      <p>This window no longer belongs to a running Undercroft, or its address was used before.</p>
      <p>Close it and start the program again. Your cellar is kept as it was.</p>
    </main>
  </body>
</html>
`;
