import { networkInterfaces } from 'node:os';

/** IPv4 blocks that only a local network uses (RFC 1918) or a machine gives itself (RFC 3927). */
const local = [/^10\./, /^192\.168\./, /^172\.(1[6-9]|2\d|3[01])\./, /^169\.254\./];

/** This machine's addresses on local networks; an address that the whole world could reach is never served. */
export const localAddresses = (interfaces = networkInterfaces()): string[] =>
  Object.values(interfaces).flatMap((list) =>
    (list ?? []).flatMap((a) =>
      a.family === 'IPv4' && !a.internal && local.some((block) => block.test(a.address)) ? [a.address] : [],
    ),
  );
