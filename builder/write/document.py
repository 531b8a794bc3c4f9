"""A workbook file in one font that says its language, which the file library does not."""

import xlsxwriter
from xlsxwriter.app import App
from xlsxwriter.chart import Chart
from xlsxwriter.core import Core
from xlsxwriter.packager import Packager
from xlsxwriter.theme import THEME_XML_2007

from builder.plan.lettering import FONT, POINTS

OPTIONS = {
    "in_memory": True,
    "strings_to_formulas": False,
    "strings_to_urls": False,
    "strings_to_numbers": False,
    # Widths of columns count in digits of this font.
    "default_format_properties": {"font_name": FONT, "font_size": POINTS, "font_scheme": False},
}
# Charts take the fonts of their words from the theme: that of headings and that of text.
THEME = THEME_XML_2007.replace('"Cambria"', f'"{FONT}"').replace('"Calibri"', f'"{FONT}"')


class SpokenCore(Core):  # type: ignore[misc]
    """The properties of a document, its language among them."""

    def __init__(self, locale: str) -> None:
        """Keep the language, such as fr-CA."""
        super().__init__()
        self.locale = locale

    def _write_cp_content_status(self) -> None:
        super()._write_cp_content_status()
        self._xml_data_element("dc:language", self.locale)


class BriefApp(App):  # type: ignore[misc]
    """What wrote a document, without a list of all its names, which stand in the workbook."""

    def _write_heading_pairs(self) -> None:
        """Write nothing."""

    def _write_titles_of_parts(self) -> None:
        """Write nothing."""


class SpokenPackager(Packager):  # type: ignore[misc]
    """Puts the parts of a file together."""

    def _write_app_file(self) -> None:
        app = BriefApp()
        app._set_properties(self.workbook.doc_properties)  # noqa: SLF001
        app._set_xml_writer(self._filename("docProps/app.xml"))  # noqa: SLF001
        app._assemble_xml_file()  # noqa: SLF001

    def _write_core_file(self) -> None:
        core = SpokenCore(self.workbook.locale)
        core._set_properties(self.workbook.doc_properties)  # noqa: SLF001 the library's own way
        core._set_xml_writer(self._filename("docProps/core.xml"))  # noqa: SLF001
        core._assemble_xml_file()  # noqa: SLF001


class SpokenWorkbook(xlsxwriter.Workbook):  # type: ignore[misc]
    """An open workbook in one language and one font."""

    def __init__(self, target: object, locale: str) -> None:
        """Open it."""
        super().__init__(target, OPTIONS)
        self.locale = locale
        self.theme_xml = THEME

    def add_chart(self, options: dict[str, str]) -> Chart:
        """Return a new chart, whose words are in the language of the workbook."""
        chart = super().add_chart(options)
        language = [("val", self.locale)]
        chart._write_lang = lambda: chart._xml_empty_tag("c:lang", language)  # noqa: SLF001
        return chart

    def _get_packager(self) -> SpokenPackager:
        return SpokenPackager()
