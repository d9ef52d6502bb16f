/// <reference types="vite/client" />
declare module 'subset-font';
