"""Kept benchmarks: how good the craft's answers are against published numbers, and how long they take."""
