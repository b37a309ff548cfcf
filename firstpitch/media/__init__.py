"""Where films, sound and the models that read them are touched: files, ffmpeg, speech recognition, sentence likeness."""
