"""Against EN 10058, EN 10059 and EN 10060: hot rolled flats, squares and rounds.

Kind: standard. From memory: no page of the standards was seen; counted apart. 7.85 kg a cubic decimetre.
"""

from shelf import Printed, book


@book("en_10058")
def test_figure(row: Printed) -> None:
    row.holds()
