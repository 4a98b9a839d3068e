using FuelHistory.Core.Library;
using Xunit;

namespace FuelHistory.Tests.Library;

public class LibrarySearchTests
{
    private static readonly WantedCar Car = new("x", "Alder", "12 Estate", "F21", 1981);

    [Theory]
    [InlineData("Alder", "12", null, 1978, 1983, Closeness.ThisCar)]
    [InlineData("ALDER", "14, 12", null, null, null, Closeness.ThisCar)]
    [InlineData("Alder", "12", null, 1984, 1986, Closeness.ThisModel)]
    [InlineData("Alder", "12 Coupe", null, 1978, 1983, Closeness.ThisMake)]
    [InlineData("Alder", null, null, null, null, Closeness.ThisMake)]
    [InlineData(null, "four-cylinder", "F21", 1978, 1983, Closeness.ThisCar)]
    [InlineData(null, "four-cylinder", "F21.4", 1978, 1983, Closeness.ThisModel)]
    [InlineData(null, null, null, null, null, Closeness.AnyCar)]
    [InlineData("Birch", "12", "F21", 1978, 1983, Closeness.OtherCar)]
    [InlineData(null, "six-cylinder", "F30", null, null, Closeness.OtherCar)]
    public void Of_car_and_limit_tells_how_near_they_are(string? make, string? model, string? engine, int? from, int? to, Closeness closeness) =>
        Assert.Equal(closeness, LibrarySearch.Of(new Given { Make = make, Model = model, Engines = engine is null ? [] : [engine], From = from, To = to, Source = "book" }, Car));

    [Fact]
    public void Of_an_uncertain_year_counts_two_years_either_side()
    {
        Given given = new() { Make = "Alder", Model = "12", From = 1983, To = 1986, Source = "book" };

        Assert.Equal(Closeness.ThisModel, LibrarySearch.Of(given, Car));
        Assert.Equal(Closeness.ThisCar, LibrarySearch.Of(given, Car with { AboutYear = true }));
        Assert.Equal(Closeness.ThisCar, LibrarySearch.Of(given, Car with { Year = null }));
    }

    [Fact]
    public void For_a_car_without_make_what_is_for_any_car_goes_first()
    {
        var found = LibrarySearch.For(LibraryFiles.Library, new WantedCar("continuous-mechanical", Year: 1981), check: "control-warm");

        Assert.Equal(Closeness.AnyCar, found[0].Closeness);
        Assert.All(found.Skip(1), f => Assert.Equal(Closeness.OtherCar, f.Closeness));
    }

    /// <summary>Nothing nearer, and nothing more to be trusted among the equally near, comes later.</summary>
    [Fact]
    public void For_every_car_of_the_library_its_own_limits_lead_in_order_of_trust()
    {
        var library = LibraryFiles.Library;
        Assert.All(library.Limits.Where(l => l.Given.Make is not null && l.Given.Model is not null), l =>
        {
            var found = LibrarySearch.For(library, new WantedCar(l.Systems[0], l.Given.Make, l.Given.Model!.Split(',')[0], null, l.Given.From ?? l.Given.To));
            var places = found.Select(f => (int)f.Closeness * 10 + LimitsLibrary.Trusts.ToList().IndexOf(library.SourceOf(f.Limit).Kind)).ToList();

            Assert.Equal(places.Order(), places);
            Assert.Contains(found, f => f.Limit == l && f.Closeness == Closeness.ThisCar);
            Assert.All(found, f => Assert.Contains(l.Systems[0], f.Limit.Systems));
        });
    }
}
