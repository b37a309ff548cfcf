# Not built where it was written, for want of a container engine; its steps were tried by hand (docs/running.md).
FROM python:3.11-slim
RUN useradd --create-home --home-dir /srv/firstpitch firstpitch && mkdir /data && chown firstpitch /data
WORKDIR /srv/firstpitch
COPY requirements-server.txt ./
RUN python -m pip install --no-cache-dir --require-hashes -r requirements-server.txt
COPY pyproject.toml README.md LICENSE ./
COPY firstpitch firstpitch
RUN python -m pip install --no-cache-dir --no-deps .
USER firstpitch
ENV FIRSTPITCH_DATA=/data
VOLUME /data
EXPOSE 8000
HEALTHCHECK --interval=30s --timeout=5s CMD ["python", "-c", "import urllib.request as u; u.urlopen(u.Request('http://127.0.0.1:8000/health/', headers={'X-Forwarded-Proto': 'https', 'Host': 'localhost'}))"]
CMD ["firstpitch-desk", "serve", "--host", "0.0.0.0", "--port", "8000"]
