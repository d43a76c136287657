import * as z from 'zod';
import { FORM_TYPE } from '../http/upload.ts';
import { PROBLEM_CLASSES, problemType } from '../problems.ts';
import { VERSION } from '../version.ts';
import { problem } from './answers/service-answers.ts';
import type { Content, Endpoint, Events } from './endpoints/endpoint.ts';
import { problemsByStatus } from './endpoints/endpoint-problems.ts';
import { ENDPOINTS } from './endpoints/endpoints.ts';
import { PURPOSE } from './purpose.ts';
import { nameOptions } from './requests/read-options.ts';

type Json = Readonly<Record<string, unknown>>;

const componentPath = (id: string): string => `#/components/schemas/${id}`;

const PROBLEM_TYPE = 'application/problem+json';

const withoutIds = ({ $id: _id, $schema: _schema, ...rest }: Json): Json => rest;

/** Every schema that has a name, by it; they refer to each other. */
const componentSchemas = (): Json => {
  const { schemas } = z.toJSONSchema(z.globalRegistry, { uri: componentPath, io: 'input' });
  return Object.fromEntries(Object.entries(schemas).map(([id, schema]) => [id, withoutIds(schema as Json)]));
};

/** A schema inside the document: a reference where it has a name. */
const schemaOf = (schema: z.ZodType): Json => {
  const id = z.globalRegistry.get(schema)?.id;
  if (id !== undefined) return { $ref: componentPath(id) };
  return withoutIds(z.toJSONSchema(schema, { io: 'input' }) as Json);
};

/** OpenAPI 3.1 has no word for events: what each holds stands in an extension. */
const eventsOf = ({ events }: Events): Json => ({
  schema: {
    type: 'string',
    description: `Server-sent events: ${Object.keys(events).join(', ')}. The data of each is JSON.`,
    'x-events': Object.fromEntries(Object.entries(events).map(([name, data]) => [name, schemaOf(data)])),
  },
});

const contentOf = (content: Content): Json => {
  if (content === 'text') return { schema: { type: 'string' } };
  if (content !== 'bytes' && 'events' in content) return eventsOf(content);
  // OpenAPI 3.1 describes bytes by a media type without a schema.
  return content === 'bytes' ? {} : { schema: schemaOf(content) };
};

/** Of answers that a client may have already. */
const ETAG = {
  ETag: 'Identifies this answer; it depends on the file, the options and the version of the service.',
};

const headersOf = (headers: Readonly<Record<string, string>>): Json =>
  Object.fromEntries(
    Object.entries(headers).map(([name, description]) => [name, { description, schema: { type: 'string' } }]),
  );

const answersOf = (endpoint: Endpoint): Json => {
  const isNamed = endpoint.answers.some(({ status }) => status === 304);
  const good = endpoint.answers.map(({ status, description, content, headers }) => [
    `${status}`,
    {
      description,
      headers: headersOf({ ...headers, ...(isNamed ? ETAG : {}) }),
      ...(Object.keys(content).length === 0
        ? {}
        : {
            content: Object.fromEntries(
              Object.entries(content).map(([type, each]) => [type, contentOf(each)]),
            ),
          }),
    },
  ]);
  const bad = [...problemsByStatus(endpoint)].map(([status, codes]) => [
    `${status}`,
    {
      description: codes.map((code) => `${PROBLEM_CLASSES[code].title}: ${problemType(code)}`).join('\n\n'),
      content: { [PROBLEM_TYPE]: { schema: schemaOf(problem) } },
    },
  ]);
  // A status that is an answer too (readiness) keeps the schema of its answer.
  return Object.fromEntries([...bad, ...good]);
};

const parametersOf = ({ path, options }: Endpoint): readonly Json[] => [
  ...[...path.matchAll(/\{(\w+)\}/g)].map(([, name]) => ({
    name,
    in: 'path',
    required: true,
    schema: { type: 'string' },
  })),
  ...(options === null ? [] : nameOptions(options)).map(({ name, schema, description }) => {
    const { description: _told, ...rest } = schemaOf(schema);
    return {
      name,
      in: 'query',
      required: isRequired(options!, name),
      ...(description === undefined ? {} : { description }),
      schema: rest,
    };
  }),
];

const isRequired = (options: z.ZodObject, name: string): boolean => {
  const member: unknown = options.shape[name];
  return member !== undefined && !(member instanceof z.ZodExactOptional);
};

const bodyOf = ({ upload, options }: Endpoint): Json | null => {
  if (upload === null) return null;
  const form = {
    type: 'object',
    required: ['score'],
    properties: {
      score: { description: 'The one file; its field may have any name.' },
      ...(options === null ? {} : { options: schemaOf(options) }),
    },
  };
  return {
    required: true,
    content: {
      ...Object.fromEntries(upload.map((type) => [type, {}])),
      [FORM_TYPE]: { schema: form, encoding: { options: { contentType: 'application/json' } } },
    },
  };
};

const describeEndpoint = (endpoint: Endpoint): Json => {
  const body = bodyOf(endpoint);
  return {
    operationId: endpoint.id,
    summary: endpoint.summary,
    description: endpoint.description,
    parameters: parametersOf(endpoint),
    ...(body === null ? {} : { requestBody: body }),
    responses: answersOf(endpoint),
    // An empty requirement beside the key: whether keys are asked for is up to who runs the service.
    security: endpoint.guarded ? [{ key: [] }, {}] : [],
  };
};

/** The description of the service as an OpenAPI 3.1 document, made of the very schemas that requests are checked by. */
export const describeApi = (): Json => {
  const paths: Record<string, Record<string, Json>> = {};
  for (const endpoint of ENDPOINTS) {
    paths[endpoint.path] = { ...paths[endpoint.path], [endpoint.method]: describeEndpoint(endpoint) };
  }
  return {
    openapi: '3.1.0',
    info: {
      title: 'tringle',
      version: VERSION,
      summary: PURPOSE,
      license: { name: 'MIT', identifier: 'MIT' },
    },
    servers: [{ url: '/' }],
    paths,
    components: {
      schemas: componentSchemas(),
      securitySchemes: { key: { type: 'http', scheme: 'bearer' } },
    },
  };
};
