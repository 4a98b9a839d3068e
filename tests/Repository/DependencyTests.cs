using System.Reflection;
using System.Text.RegularExpressions;
using System.Xml.Linq;

namespace FuelHistory.Tests.Repository;

/// <summary>References go one way, and the core looks at nobody.</summary>
public sealed class DependencyTests
{
    private static readonly string[] RetiredEndings = ["Service", "Manager", "Helper", "Helpers", "Util", "Utils", "Common"];

    [Theory]
    [InlineData("shared-contracts/FuelHistory.Contracts.csproj", "")]
    [InlineData("api/core/FuelHistory.Core.csproj", "")]
    [InlineData("api/host/FuelHistory.Host.csproj", "FuelHistory.Contracts FuelHistory.Core")]
    [InlineData("client-tui/FuelHistory.Client.csproj", "FuelHistory.Contracts")]
    public void Project_refers_only_to_those_below_it(string project, string expected)
    {
        // the host that is built to lie beside the client is not referred to
        var linked = Items(project, "ProjectReference").Where(r => (string?)r.Attribute("ReferenceOutputAssembly") != "false");

        Assert.Equal(expected, string.Join(' ', linked.Select(r => Path.GetFileNameWithoutExtension(((string)r.Attribute("Include")!).Replace('\\', '/'))).Order(StringComparer.Ordinal)));
    }

    [Fact]
    public void Core_takes_packages_for_numbers_and_units_only()
    {
        string[] atRunTime = [.. Items("api/core/FuelHistory.Core.csproj", "PackageReference").Where(p => (string?)p.Attribute("PrivateAssets") != "all").Select(p => (string)p.Attribute("Include")!)];

        Assert.Equal(["MathNet.Numerics", "UnitsNet"], atRunTime.Order(StringComparer.Ordinal));
        Assert.Empty(Items("api/core/FuelHistory.Core.csproj", "FrameworkReference"));
        Assert.Empty(Items("shared-contracts/FuelHistory.Contracts.csproj", "PackageReference"));
    }

    [Fact]
    public void Built_core_knows_no_web_no_database_and_no_other_part_of_the_program()
    {
        var known = typeof(FuelHistory.Core.Assessment.Assess).Assembly.GetReferencedAssemblies().Select(a => a.Name!).ToList();

        Assert.Contains("MathNet.Numerics", known);
        Assert.DoesNotContain(known, name => Regex.IsMatch(name, "^(Microsoft|FuelHistory|Dapper|System.Net|System.Data)", RegexOptions.None));
    }

    [Fact]
    public void Types_are_not_named_by_words_that_say_nothing()
    {
        Assembly[] ours = [typeof(FuelHistory.Core.Assessment.Assess).Assembly, typeof(FuelHistory.Host.Http.Refused).Assembly, typeof(FuelHistory.Contracts.Routes).Assembly, typeof(FuelHistory.Client.Api.ApiCalls).Assembly];
        var retired = ours.SelectMany(a => a.GetTypes()).Where(t => t.Namespace?.StartsWith("FuelHistory", StringComparison.Ordinal) ?? false)
            .Where(t => RetiredEndings.Any(e => t.Name.Split('`')[0].EndsWith(e, StringComparison.OrdinalIgnoreCase))).Select(t => t.FullName);

        Assert.Empty(retired);
    }

    private static IEnumerable<XElement> Items(string project, string kind) => XDocument.Parse(SourceTree.Text(project)).Descendants(kind);
}
