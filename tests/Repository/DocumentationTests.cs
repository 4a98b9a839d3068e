using System.Reflection;
using System.Text.RegularExpressions;
using FuelHistory.Client;
using FuelHistory.Client.Plain;
using FuelHistory.Contracts;
using FuelHistory.Tests.Host;

namespace FuelHistory.Tests.Repository;

/// <summary>What the documents name exists, and what exists is named.</summary>
public sealed partial class DocumentationTests
{
    private const string Readme = "README.md", Developers = "DEVELOPERS.md", Interface = "api/host/API.md", Model = "api/core/MODEL.md";

    [Fact]
    public async Task Interface_page_lists_every_address_with_its_methods()
    {
        using ApiHost host = new();
        var served = (await Documented.Of(host.Address)).GetProperty("paths").EnumerateObject()
            .SelectMany(p => p.Value.EnumerateObject().Select(o => $"{o.Name.ToUpperInvariant()} {p.Name}")).Append($"GET {Routes.OpenApi}");
        var written = AddressRow().Matches(SourceTree.Text(Interface)).SelectMany(m => m.Groups[2].Value.Split(", ").Select(method => $"{method} {m.Groups[1].Value}")).ToList();

        Assert.Equal(served.Order(StringComparer.Ordinal), written.Order(StringComparer.Ordinal));
        Assert.Equal(Constants(typeof(Routes)).Order(StringComparer.Ordinal), written.Select(w => w.Split(' ')[1]).Distinct().Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Interface_page_lists_every_code_of_a_refusal() =>
        Assert.Equal(
            Constants(typeof(Problems)).Where(c => c != Problems.TypePrefix).Order(StringComparer.Ordinal),
            CodeRow().Matches(SourceTree.Text(Interface)).Select(m => m.Groups[1].Value).Order(StringComparer.Ordinal));

    [Fact]
    public async Task Readme_names_the_options_and_commands_that_the_client_has()
    {
        StringWriter help = new();
        await new Start(help, help, _ => null, TimeProvider.System).Run(["--help"]);
        var options = HelpOption().Matches(help.ToString()).Select(m => m.Groups[1].Value).Except(["--help", "--version"]);
        var verbs = HelpVerb().Matches(help.ToString()[help.ToString().IndexOf("Commands:", StringComparison.Ordinal)..]).Select(m => m.Groups[1].Value).ToList();
        var text = SourceTree.Text(Readme);
        var list = text.Split('\n').Single(l => l.StartsWith("Plain commands:", StringComparison.Ordinal)).Split(';')[0];

        Assert.Equal(options.Order(StringComparer.Ordinal), OptionRow().Matches(text).Select(m => m.Groups[1].Value).Order(StringComparer.Ordinal));
        Assert.Equal(verbs.Order(StringComparer.Ordinal), Quoted().Matches(list).Select(m => m.Groups[1].Value).Order(StringComparer.Ordinal));
        Assert.Subset(verbs.ToHashSet(), Verb().Matches(text).Select(m => m.Groups[1].Value).ToHashSet());
    }

    [Fact]
    public async Task Readme_names_every_fuel_system()
    {
        using ApiHost host = new(realModels: true);
        var text = string.Join(' ', SourceTree.Text(Readme).Split((char[]?)null, StringSplitOptions.RemoveEmptyEntries));
        var systems = (await host.Get("/v1/fault-models")).Body.EnumerateArray().Select(m => m.GetProperty("title").GetString()!).ToList();
        Assert.InRange(systems.Count, 7, 20);
        Assert.All(systems, title => Assert.Contains(title, text, StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Keys_that_the_readme_names_are_keys_of_the_client()
    {
        var known = typeof(Keys).GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => ((KeyUse)f.GetValue(null)!).Shown).ToHashSet();
        var section = SourceTree.Text(Readme).Split("\n## ").Single(s => s.StartsWith("A search by keys", StringComparison.Ordinal));
        var named = KeyRow().Matches(section).Select(m => m.Groups[1].Value).ToHashSet();

        Assert.Contains("Enter", named);
        Assert.Subset(known, named);
    }

    [Fact]
    public void Every_folder_stands_on_the_map()
    {
        var map = SourceTree.Text(Developers);

        Assert.DoesNotContain(SourceTree.Folders, f => !map.Contains(f.Split('/')[^1] + "/", StringComparison.Ordinal));
    }

    [Fact]
    public void Files_folders_and_projects_that_documents_name_exist()
    {
        var known = SourceTree.Files.Concat(SourceTree.Folders).ToHashSet();
        foreach (var document in new[] { Readme, Developers, Interface, Model })
        {
            var text = SourceTree.Text(document);
            var named = Quoted().Matches(text).Select(m => m.Groups[1].Value.TrimEnd('/')).Where(n => SourceTree.Folders.Any(f => n.StartsWith(f + "/", StringComparison.Ordinal)) && !n.Contains('<', StringComparison.Ordinal) && !n.Contains('*', StringComparison.Ordinal));
            var projects = Project().Matches(text).Select(m => m.Groups[1].Value);
            var links = Link().Matches(text).Select(m => Path.GetRelativePath(SourceTree.Root, Path.Combine(SourceTree.Root, Path.GetDirectoryName(document)!, m.Groups[1].Value)));

            Assert.Empty(named.Concat(projects).Concat(links).Where(n => !known.Contains(n)).Select(n => $"{document} names {n}"));
        }
    }

    [Fact]
    public void Filters_that_documents_give_to_the_tests_fit_a_test()
    {
        var tests = typeof(DocumentationTests).Assembly.GetTypes().SelectMany(t => t.GetMethods().Select(m => $"{t.FullName}.{m.Name}")).ToList();

        foreach (var document in new[] { Readme, Developers, Interface, Model })
        {
            Assert.All(Filter().Matches(SourceTree.Text(document)).Select(m => m.Groups[1].Value), f => Assert.Contains(tests, t => t.Contains(f, StringComparison.Ordinal)));
        }
    }

    [Fact]
    public void Readme_begins_with_the_job_and_the_map_fits_into_its_lines()
    {
        var first = SourceTree.Lines(Readme)[0];

        Assert.StartsWith("FuelHistory ", first, StringComparison.Ordinal);
        Assert.EndsWith(".", first, StringComparison.Ordinal);
        Assert.InRange(SourceTree.Lines(Developers).Length, 1, 149);
    }

    [Fact]
    public void Sections_of_the_model_page_that_code_refers_to_exist()
    {
        var sections = Section().Matches(SourceTree.Text(Model)).Select(m => m.Groups[1].Value).ToList();
        var named = SourceTree.Code.SelectMany(f => Reference().Matches(SourceTree.Text(f)).SelectMany(m => Digits().Matches(m.Value).Select(d => d.Value))).ToHashSet();

        Assert.Equal(Enumerable.Range(1, 10).Select(i => $"{i}"), sections);
        Assert.NotEmpty(named);
        Assert.Subset(sections.ToHashSet(), named);
        Assert.DoesNotContain(SourceTree.Code, f => WrongPage().IsMatch(SourceTree.Text(f)));
    }

    [Fact]
    public void Model_page_names_the_rules_of_the_linter()
    {
        var rules = SourceTree.Code.Where(f => f.StartsWith("api/core/FaultModels/FaultModelLinter", StringComparison.Ordinal)).SelectMany(f => Rule().Matches(SourceTree.Text(f)).Select(m => m.Groups[1].Value)).ToHashSet();
        var section = SourceTree.Text(Model).Split("\n## 10.")[1];

        Assert.NotEmpty(rules);
        Assert.DoesNotContain(rules, r => !section.Contains($"`{r}`", StringComparison.Ordinal));
        Assert.DoesNotContain(Hyphenated().Matches(section).Select(m => m.Groups[1].Value), n => !rules.Contains(n));
    }

    private static IEnumerable<string> Constants(Type type) => type.GetFields(BindingFlags.Public | BindingFlags.Static).Select(f => (string)f.GetRawConstantValue()!);

    [GeneratedRegex(@"^\| `(/[^`]+)` \| ([A-Z, ]+) \|", RegexOptions.Multiline)]
    private static partial Regex AddressRow();

    [GeneratedRegex(@"^\| `([a-z-]+)` \|", RegexOptions.Multiline)]
    private static partial Regex CodeRow();

    [GeneratedRegex(@"^\| `(--[a-z-]+)` \|", RegexOptions.Multiline)]
    private static partial Regex OptionRow();

    [GeneratedRegex(@"^\| `([^`]+)` \|", RegexOptions.Multiline)]
    private static partial Regex KeyRow();

    [GeneratedRegex(@"^  (--[a-z-]+)", RegexOptions.Multiline)]
    private static partial Regex HelpOption();

    [GeneratedRegex(@"^  ([a-z][a-z-]*)", RegexOptions.Multiline)]
    private static partial Regex HelpVerb();

    [GeneratedRegex(@"^\$ .*?\bfuel ([a-z][a-z-]*) ", RegexOptions.Multiline)]
    private static partial Regex Verb();

    [GeneratedRegex("`([^`\n]+)`")]
    private static partial Regex Quoted();

    [GeneratedRegex(@"--project ([\w/-]+)")]
    private static partial Regex Project();

    [GeneratedRegex(@"\]\(([^)#:]+)\)")]
    private static partial Regex Link();

    [GeneratedRegex(@"--filter (\w+)")]
    private static partial Regex Filter();

    [GeneratedRegex(@"^## (\d+)\.", RegexOptions.Multiline)]
    private static partial Regex Section();

    [GeneratedRegex(@"MODEL\.md \d+(?:(?:, | and )\d+)*")]
    private static partial Regex Reference();

    [GeneratedRegex(@"\d+")]
    private static partial Regex Digits();

    [GeneratedRegex(@"\bmodel\.md\b")]
    private static partial Regex WrongPage();

    [GeneratedRegex("new(?: LintNote)?\\(\"([a-z-]+)\"")]
    private static partial Regex Rule();

    [GeneratedRegex("`([a-z]+-[a-z-]+)`")]
    private static partial Regex Hyphenated();
}
