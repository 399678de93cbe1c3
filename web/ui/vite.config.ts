import react from "@vitejs/plugin-react";
import { defineConfig } from "vite";

// The bundle goes to web/dist, which the server embeds. Nothing is inlined: the content policy
// refuses inline scripts and data addresses.
export default defineConfig({
  plugins: [react()],
  base: "/",
  build: {
    outDir: "../dist",
    emptyOutDir: false,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    reportCompressedSize: false,
  },
  server: {
    proxy: { "/api": "http://127.0.0.1:8420" },
    fs: { allow: ["../.."] },
  },
});
