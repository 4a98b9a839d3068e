using System.Text.Json.Nodes;
using FuelHistory.Core.Library;
using Json.Schema;
using Xunit;

namespace FuelHistory.Tests.Library;

/// <summary>The library as it is shipped.</summary>
public class LibraryFileTests
{
    private static readonly JsonSchema Schema = JsonSchema.FromText(File.ReadAllText(Path.Combine(LibraryFiles.Folder, "limits.schema.json")));

    public static TheoryData<string> Names => new(LibraryFiles.All.Select(f => f.Name));

    [Theory]
    [MemberData(nameof(Names))]
    public void File_of_the_library_fits_schema(string name)
    {
        var results = Schema.Evaluate(JsonNode.Parse(LibraryFiles.All.Single(f => f.Name == name).Text), new EvaluationOptions { OutputFormat = OutputFormat.List });

        Assert.True(results.IsValid, string.Join("\n", results.Details.Where(d => d.HasErrors).Take(20).Select(d => $"{d.InstanceLocation}: {string.Join("; ", d.Errors!.Values)}")));
    }

    [Theory]
    [InlineData("kind", "\"hearsay\"")]
    [InlineData("cite", "\" \"")]
    public void Broken_source_refused_by_schema(string member, string value)
    {
        var json = JsonNode.Parse(LibraryFiles.All.Single(f => f.Name == LibraryReader.Sources).Text)!;
        json["sources"]!["memory"]![member] = JsonNode.Parse(value);

        Assert.False(Schema.Evaluate(json).IsValid);
    }

    [Theory]
    [InlineData("id", "\"Not An Id\"")]
    [InlineData("given", "{ }")]
    [InlineData("systems", "[]")]
    [InlineData("printed", "\"\"")]
    [InlineData("partlyOurs", "false")]
    [InlineData("colour", "\"red\"")]
    public void Broken_limit_refused_by_schema(string member, string value)
    {
        var json = JsonNode.Parse(LibraryFiles.All.First(f => f.Name != LibraryReader.Sources).Text)!;
        json["limits"]![0]![member] = JsonNode.Parse(value);

        Assert.False(Schema.Evaluate(json).IsValid);
    }

    [Fact]
    public void Library_is_clean_and_large_enough()
    {
        Assert.Equal([], LibraryLinter.Lint(LibraryFiles.Library, LibraryFiles.Models).Select(n => $"{n.Path}: {n.Message}"));
        Assert.True(LibraryFiles.Library.Limits.Count >= 120, $"{LibraryFiles.Library.Limits.Count} limits");
        // what is only remembered does not make the number up
        Assert.True(LibraryFiles.Library.Limits.Count(l => LibraryFiles.Library.SourceOf(l).Kind is "published" or "excerpt") >= 120);
    }

    [Fact]
    public void Every_system_has_limits_of_more_than_one_kind_of_source()
    {
        string[] systems =
        [
            "continuous-mechanical", "continuous-electro-hydraulic", "port-manifold-pressure", "port-airflow", "single-point", "carburettor", "diesel-mechanical",
        ];

        Assert.All(systems, s => Assert.True(LibraryFiles.Library.Limits.Where(l => l.Systems.Contains(s)).Select(l => LibraryFiles.Library.SourceOf(l).Kind).Distinct().Count() > 1, s));
        Assert.Empty(LibraryFiles.Library.Limits.SelectMany(l => l.Systems).Except(systems));
    }

    [Fact]
    public void Memory_says_so_in_its_citation_and_names_no_document()
    {
        Assert.All(LibraryFiles.Library.Sources.Values.Where(s => s.Kind == "memory"), s => Assert.StartsWith("From memory", s.Cite, StringComparison.Ordinal));
        Assert.All(LibraryFiles.Library.Sources.Values.Where(s => s.Kind == "excerpt"), s => Assert.DoesNotContain("memory", s.Cite, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Misprint_keeps_the_printed_figures_and_gives_its_reason()
    {
        var misprints = LibraryFiles.Library.Limits.Where(l => l.Misprint is not null).ToList();

        Assert.True(misprints.Count >= 5);
        // the print of the warm control pressure has a psi figure that does not go with its bar figure
        var warm = Assert.Single(misprints, l => l.Id.StartsWith("control-warm", StringComparison.Ordinal));
        Assert.Contains("39-45", warm.Printed, StringComparison.Ordinal);
        Assert.Equal(("bar", 3.4, 3.8), (warm.Unit, warm.Low, warm.High));
    }

    [Fact]
    public void Makes_stand_in_given_and_cite_only()
    {
        var makes = LibraryFiles.Library.Limits.Select(l => l.Given.Make).OfType<string>().Distinct().ToHashSet();
        var lines = LibraryFiles.All.SelectMany(f => f.Text.Split('\n').Select(line => (f.Name, Line: line)))
            .Where(l => !l.Line.Contains("\"given\":", StringComparison.Ordinal) && !l.Line.Contains("\"cite\":", StringComparison.Ordinal));

        Assert.True(makes.Count > 20);
        Assert.All(lines, l => Assert.DoesNotContain(l.Line.Split(' ', ',', '.', '"', '(', ')'), makes.Contains));
    }

    /// <summary>A document that prints "about 5 bar" has published no band: what is ours in it is marked.</summary>
    [Fact]
    public void Figure_without_a_printed_tolerance_is_marked_as_partly_ours() =>
        Assert.All(
            LibraryFiles.Library.Limits.Where(l => l.Printed.StartsWith("about", StringComparison.Ordinal) && l.Low is not null && l.High is not null && !l.Printed.Contains('-', StringComparison.Ordinal)),
            l => Assert.True(l.PartlyOurs, l.Id));

    /// <summary>A jug that fills in another time than the check's would be judged wrongly.</summary>
    [Fact]
    public void Volumes_of_one_check_come_in_one_time() =>
        Assert.All(
            LibraryFiles.Library.Limits.Where(l => l.Seconds is not null).SelectMany(l => l.Systems.SelectMany(s => l.Checks.Select(c => (Check: $"{s} {c}", l.Seconds)))).GroupBy(l => l.Check),
            g => Assert.Single(g.Select(l => l.Seconds).Distinct()));

    [Fact]
    public void Every_system_has_limits_that_its_checks_read() =>
        Assert.All(LibraryFiles.Models, m => Assert.True(
            LibraryFiles.Library.Limits.Where(l => l.Systems.Contains(m.Key)).SelectMany(l => l.Checks).Where(c => m.Value.Checks.Any(k => k.Id == c)).Distinct().Count() >= 5, m.Key));
}
