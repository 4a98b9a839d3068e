using FuelHistory.Core.Library;
using Xunit;

namespace FuelHistory.Tests.Library;

/// <summary>Every rule refuses something, and names it.</summary>
public class LibraryLintTests
{
    private static string[] Rules(LimitsLibrary library) => [.. LibraryLinter.Lint(library, LibraryFiles.Models).Select(n => n.Rule).Distinct()];

    [Fact]
    public void Sound_limit_is_not_refused() => Assert.Empty(Rules(LibraryFiles.With("remark", "\"none\"")));

    [Theory]
    [InlineData("id", "\"Not An Id\"", "id-form")]
    [InlineData("systems", "[]", "no-system")]
    [InlineData("quantity", "\"weight\"", "quantity")]
    [InlineData("unit", "\"ohm\"", "unit")]
    [InlineData("unit", null, "unit")]
    [InlineData("unit", "\"MPa\"", "implausible")]
    [InlineData("low", "5.5", "order")]
    [InlineData("seconds", "30", "seconds")]
    [InlineData("holdFrom", "6", "hold-from")]
    [InlineData("over", """{ "id": "t", "title": "t", "quantity": "temperature", "unit": "°C" }""", "over")]
    [InlineData("points", """[{ "minutes": 10, "low": 2 }]""", "points")]
    [InlineData("checks", """["no-such-check"]""", "unknown-check")]
    [InlineData("checks", """["pump-voltage"]""", "check-mismatch")]
    [InlineData("checks", """["leak-down-whole"]""", "check-mismatch")]
    [InlineData("notForJudging", "\"a bound\"", "not-for-judging")]
    [InlineData("checks", "[]", "no-check")]
    [InlineData("noCheck", "\"none\"", "no-check")]
    [InlineData("systems", """["continuous-mechanical", "carburettor"]""", "no-check")]
    [InlineData("partlyOurs", "true", "not-worked")]
    [InlineData("given", """{ "source": "book", "from": 1986, "to": 1981 }""", "years")]
    [InlineData("given", """{ "source": "letter" }""", "unknown-source")]
    public void Broken_limit_is_refused_by_its_rule(string member, string? value, string rule) => Assert.Contains(rule, Rules(LibraryFiles.With(member, value)));

    [Theory]
    [InlineData("""{ "id": "a", "points": [{ "minutes": 20, "low": 2 }, { "minutes": 10, "low": 1 }] """, "order")]
    [InlineData("""{ "id": "a", "points": [{ "minutes": 10, "low": 1 }, { "minutes": 20, "low": 2 }] """, "order")]
    [InlineData("""{ "id": "a", "points": [{ "minutes": 10, "low": 1 }, { "at": 20, "low": 2 }] """, "points")]
    [InlineData("""{ "id": "a", "points": [{ "minutes": 10 }] """, "points")]
    [InlineData("""{ "id": "a" """, "no-figures")]
    public void Broken_figures_are_refused_by_their_rule(string start, string rule)
    {
        var rest = """, "title": "A", "quantity": "pressure", "unit": "bar", "systems": ["x"], "checks": [], "given": { "source": "book" }, "printed": "as it is" }""";

        Assert.Contains(rule, Rules(LibraryFiles.Of(start + rest)));
    }

    [Fact]
    public void Two_limits_of_one_id_are_refused()
    {
        const string limit = """{ "id": "a", "title": "A", "quantity": "pressure", "unit": "bar", "low": 1, "systems": ["x"], "checks": [], "given": { "source": "book" }, "printed": "1" }""";

        Assert.Contains("duplicate-id", Rules(LibraryFiles.Of(limit, limit)));
    }

    [Fact]
    public void Source_that_nothing_names_is_refused() =>
        Assert.Contains("unused-source", Rules(LibraryFiles.With("given", """{ "source": "letter" }""")));

    [Fact]
    public void Text_that_is_no_library_is_refused_with_file_and_line()
    {
        var refused = Assert.Throws<LibraryException>(() => LibraryReader.Read([("a.json", "{\n \"schema\": \"fuelhistory/limits/1\",\n \"limits\": [], \"more\": 1 }")]));

        Assert.StartsWith("a.json, line 3, $.more", refused.Message, StringComparison.Ordinal);
        Assert.Contains("fuelhistory/limits/2", Assert.Throws<LibraryException>(() => LibraryReader.Read([("b.json", """{ "schema": "fuelhistory/limits/2", "limits": [] }""")])).Message, StringComparison.Ordinal);
    }
}
