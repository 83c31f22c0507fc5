/**
 * The words a person gave this program, out of all that Electron was started with: the program itself, switches for the
 * engine, and, when it is not packaged, the folder of the project.
 *
 * @param all as in `process.argv`
 * @param appPath the folder Electron was told to run; undefined when packaged
 */
export function ownArguments(all: readonly string[], appPath: string | undefined): string[] {
  const at = appPath === undefined ? 0 : all.indexOf(appPath);
  return all.slice(Math.max(at, 0) + 1);
}
