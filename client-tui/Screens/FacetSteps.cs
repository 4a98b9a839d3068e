using FuelHistory.Client.Forms;

namespace FuelHistory.Client.Screens;

/// <summary>Opens the lists of a facet field one after the other. Escape keeps what was picked so far and goes no further.</summary>
internal static class FacetSteps
{
    public static void Open(Desk desk, FacetField field, Action done) => From(desk, field.Facets, 0, done);

    private static void From(Desk desk, Facets facets, int at, Action done)
    {
        while (at < facets.Count && !facets.Arises(at)) at++;
        if (at >= facets.Count)
        {
            done();
            return;
        }
        var pick = facets.Field(at);
        desk.Open(new PickScreen(desk, pick, () =>
        {
            facets.Pick(at, pick.Id);
            From(desk, facets, at + 1, done);
        }));
    }
}
