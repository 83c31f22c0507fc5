import { svelte } from '@sveltejs/vite-plugin-svelte';
import { defineConfig } from 'electron-vite';
import { resolve } from 'node:path';

const root = import.meta.dirname;
const rendererPort = 5199;

/**
 * One build for both hosts: `main` runs under Electron, `serve` under plain Node, and the sandboxed preload is
 * CommonJS because a sandboxed page cannot load a module there.
 */
export default defineConfig({
  main: {
    build: {
      outDir: resolve(root, 'out/main'),
      rolldownOptions: {
        input: {
          main: resolve(root, 'src-main/main.ts'),
          serve: resolve(root, 'src-main/serve.ts'),
          'strongbox-worker': resolve(root, 'src-main/strongbox/strongbox-worker.ts'),
        },
        // Shared code lies beside the entries, so that the migrations are as far from it as from a source file.
        output: { chunkFileNames: '[name]-[hash].js' },
      },
    },
  },
  preload: {
    build: {
      outDir: resolve(root, 'out/preload'),
      externalizeDeps: false,
      rolldownOptions: {
        input: { preload: resolve(root, 'src-main/hosts/electron/preload.ts') },
        output: { format: 'cjs', entryFileNames: '[name].cjs' },
      },
    },
  },
  renderer: {
    root: resolve(root, 'src-renderer'),
    plugins: [svelte({ configFile: false })],
    server: {
      host: '127.0.0.1',
      port: rendererPort,
      strictPort: true,
      hmr: { host: '127.0.0.1', clientPort: rendererPort },
    },
    build: {
      outDir: resolve(root, 'out/renderer'),
      emptyOutDir: true,
      minify: true,
      // A font inside the style sheet would be an address of another kind, which the content policy refuses.
      assetsInlineLimit: 0,
      rolldownOptions: { input: { index: resolve(root, 'src-renderer/index.html') } },
    },
  },
});
