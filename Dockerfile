# The image to build on; a release names it by its digest: --build-arg NODE_IMAGE=node:20-bookworm-slim@sha256:...
ARG NODE_IMAGE=node:20-bookworm-slim

FROM ${NODE_IMAGE} AS build
WORKDIR /app
COPY package.json package-lock.json .npmrc ./
# Without scripts: the build follows when the sources are there.
RUN npm ci --ignore-scripts
COPY tsconfig.json tsconfig.build.json ./
COPY engine engine
COPY render render
COPY server server
COPY THIRD-PARTY-NOTICES.txt ./
RUN npm run build && npm prune --omit=dev --ignore-scripts

FROM ${NODE_IMAGE}
ENV NODE_ENV=production HOST=0.0.0.0 PORT=8017
WORKDIR /app
COPY --from=build /app/package.json /app/THIRD-PARTY-NOTICES.txt ./
COPY LICENSE ./
COPY --from=build /app/node_modules node_modules
COPY --from=build /app/dist dist
COPY --from=build /app/server/demo server/demo
USER node
EXPOSE 8017
# Every setting beside HOST and PORT is listed by `node dist/server/cli.js --help`.
STOPSIGNAL SIGTERM
HEALTHCHECK --interval=30s --timeout=5s --start-period=20s \
  CMD ["node", "-e", "fetch('http://127.0.0.1:' + process.env.PORT + '/healthz').then((r) => process.exit(r.ok ? 0 : 1), () => process.exit(1))"]
CMD ["node", "dist/server/main.js"]
