"""Tests of the reference calculations."""
