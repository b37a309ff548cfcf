"""Captions: reading what a film's captions say, and writing them clean and well timed. See docs/film.md."""

from firstpitch.film.captions.faults import CaptionFault
from firstpitch.film.captions.read import read_captions
from firstpitch.film.captions.retime import Retimed, retimed
from firstpitch.film.captions.write import srt_text, transcript_text, vtt_text

__all__ = ["CaptionFault", "Retimed", "read_captions", "retimed", "srt_text", "transcript_text", "vtt_text"]
