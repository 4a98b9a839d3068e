using System.Text.RegularExpressions;

namespace FuelHistory.Tests.Repository;

/// <summary>Files and methods stay small enough to be read in one go, and tests never wait by the clock.</summary>
public sealed class SizeTests
{
    private const int FileLines = 300, MethodLines = 50;

    [Fact]
    public void No_code_file_is_longer_than_its_cap() =>
        Assert.Empty(SourceTree.Code.Select(f => (f, Lines: SourceTree.Lines(f).Length)).Where(f => f.Lines > FileLines).Select(f => $"{f.f}: {f.Lines} lines, {FileLines} allowed"));

    [Fact]
    public void No_method_is_longer_than_its_cap() =>
        Assert.Empty(SourceTree.Code.SelectMany(f => Blocks(SourceTree.Lines(f)).Where(b => b.Lines > MethodLines).Select(b => $"{f}:{b.Start}: {b.Lines} lines, {MethodLines} allowed")));

    [Fact]
    public void Blocks_of_a_long_method_are_found_and_those_of_types_are_not()
    {
        string[] body = [.. Enumerable.Repeat("        A();", 60)];
        string[] code = ["internal sealed class Long", "{", "    public void Method(", "        int x)", "    {", .. body, "    }", "}"];

        Assert.Equal([(3, 62)], Blocks(code).Where(b => b.Lines > MethodLines));
    }

    [Fact]
    public void Tests_do_not_sleep_and_no_transaction_waits_with_its_lock()
    {
        Assert.Empty(With("tests/", "Thread" + ".Sleep"));
        Assert.Empty(With("tests/", "Task" + ".Delay"));
        Assert.Empty(With("", "deferred" + ": true").Except(["tests/Host/SqliteFileTests.cs"]));
    }

    private static IEnumerable<string> With(string folder, string text) =>
        SourceTree.Code.Where(f => f.StartsWith(folder, StringComparison.Ordinal) && SourceTree.Text(f).Contains(text, StringComparison.Ordinal));

    /// <summary>Blocks in braces that are neither the body of a type nor a table of data, by the line on which what opens them begins and their own length. A block ends with the next
    /// closing brace of the same depth, which is where the formatter puts it.</summary>
    private static IEnumerable<(int Start, int Lines)> Blocks(string[] lines)
    {
        for (int open = 0; open < lines.Length; open++)
        {
            var depth = lines[open].Length - lines[open].TrimStart().Length;
            if (lines[open].Trim() != "{" || depth == 0)
            {
                continue;
            }

            int start = open;
            while (start > 0 && lines[start - 1].Trim() is { Length: > 0 } before && before[^1] is not (';' or '{' or '}' or ']') && !before.StartsWith("//", StringComparison.Ordinal))
            {
                start--;
            }

            int close = Array.FindIndex(lines, open, l => l.StartsWith(new string(' ', depth) + "}", StringComparison.Ordinal));
            var head = string.Join(' ', lines[start..open]);
            if (close > 0 && !Regex.IsMatch(head, @"\b(class|record|struct|interface|enum)\b|\bnew(\(\)|\s+[\w<>, ]+(\(\))?)$", RegexOptions.None))
            {
                yield return (start + 1, close - open + 1);
            }
        }
    }
}
