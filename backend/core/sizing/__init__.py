"""Sizing: the strip and the elastic of one piece."""
