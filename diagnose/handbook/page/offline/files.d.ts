/** What is put in front of the worker when the site is built: each file's path, and the digest of its content. */
declare const FILES: Record<string, string>;
