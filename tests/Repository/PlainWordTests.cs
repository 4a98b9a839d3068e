using System.Text.RegularExpressions;

namespace FuelHistory.Tests.Repository;

/// <summary>Words that answers and screens do not use.</summary>
public sealed partial class PlainWordTests
{
    /// <summary>How earlier releases wrote it into the database: read as resolved.</summary>
    private const string ReadsTheOld = "api/host/Features/Complaints/ComplaintStore.cs";

    [Fact]
    public void Nothing_is_said_to_be_cured()
    {
        var said = SourceTree.Files
            .Where(f => f != ReadsTheOld && (f.StartsWith("client-tui/", StringComparison.Ordinal) || f.StartsWith("shared-contracts/", StringComparison.Ordinal) || f.StartsWith("api/", StringComparison.Ordinal) || f.StartsWith("db/demo/", StringComparison.Ordinal)))
            .Where(f => f.EndsWith(".cs", StringComparison.Ordinal) || f.EndsWith("model.json", StringComparison.Ordinal) || f.Contains("/shared/", StringComparison.Ordinal) || f.StartsWith("db/demo/", StringComparison.Ordinal))
            .SelectMany(f => SourceTree.Lines(f).SelectMany(line => Texts().Matches(line).Select(m => (File: f, Text: m.Value))))
            .Where(t => Cure().IsMatch(t.Text)).Select(t => $"{t.File}: {t.Text}");

        Assert.Empty(said);
    }

    [Fact]
    public void Odds_are_never_said_as_times_or_divided() => Assert.DoesNotContain(
        SourceTree.Code.Where(f => f.StartsWith("api/", StringComparison.Ordinal)), f => Texts().Matches(SourceTree.Text(f)).Any(m => m.Value.Contains("odds times", StringComparison.Ordinal) || m.Value.Contains("odds divided", StringComparison.Ordinal)));

    [GeneratedRegex("\"(?:[^\"\\\\\\r\\n]|\\\\.)*\"")]
    private static partial Regex Texts();

    [GeneratedRegex(@"\bcure[sd]?\b", RegexOptions.IgnoreCase)]
    private static partial Regex Cure();
}
