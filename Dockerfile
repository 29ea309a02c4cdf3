# One container: the service and the private PostgreSQL that it keeps in /data.
FROM rust:1.95-bookworm AS build
WORKDIR /settlebrook
COPY . .
RUN cargo build --release --locked

FROM debian:bookworm-slim
RUN apt-get update \
 && apt-get install -y --no-install-recommends postgresql-15 ca-certificates util-linux \
 && rm -rf /var/lib/apt/lists/* \
 && useradd --system --home-dir /data settlebrook \
 && install -d -o settlebrook -g settlebrook -m 700 /data
COPY --from=build /settlebrook/target/release/settlebrook /usr/local/bin/settlebrook
USER settlebrook
VOLUME /data
ENV SETTLEBROOK_DATA_DIR=/data SETTLEBROOK_LISTEN=0.0.0.0:8080
EXPOSE 8080
STOPSIGNAL SIGTERM
ENTRYPOINT ["settlebrook"]
CMD ["serve"]
