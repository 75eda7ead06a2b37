"""Mailing: what a finished piece is to each postal service, by dated rules. General information, not postal advice; no prices."""

from kitwright.proof.mailing.finding import DISCLAIMER, mailing_finding
from kitwright.proof.mailing.judge import Reason, Verdict, judge, judge_all
from kitwright.proof.mailing.piece import Feature, MailPiece, Shape
from kitwright.proof.mailing.prices import PriceStep, PriceTable, parse_prices
from kitwright.proof.mailing.reading import parse_service
from kitwright.proof.mailing.service import Clause, Kind, MailClass, Quantity, Service, Status
from kitwright.proof.mailing.shipped import load_services

__all__ = [
    "DISCLAIMER",
    "Clause",
    "Feature",
    "Kind",
    "MailClass",
    "MailPiece",
    "PriceStep",
    "PriceTable",
    "Quantity",
    "Reason",
    "Service",
    "Shape",
    "Status",
    "Verdict",
    "judge",
    "judge_all",
    "load_services",
    "mailing_finding",
    "parse_prices",
    "parse_service",
]
