/** How `npm run migrate` turns ./schema.ts into the SQL of ./migrations. */
import type { Config } from 'drizzle-kit';

const config = {
  dialect: 'sqlite',
  schema: './src/store/sqlite/schema.ts',
  out: './src/store/sqlite/migrations',
} satisfies Config;

// The tool reads the default export of its configuration, and nothing else.
export default config;
