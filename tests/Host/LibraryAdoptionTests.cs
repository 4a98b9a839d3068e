using System.Net;
using FuelHistory.Host.Features.FaultModels;
using FuelHistory.Host.Features.LimitsLibrary;

namespace FuelHistory.Tests.Host;

/// <summary>The library as it is shipped, taken limit by limit for a car of each system.</summary>
public sealed class LibraryAdoptionTests
{
    [Fact]
    public async Task Every_limit_is_taken_for_every_check_that_it_names_in_every_system()
    {
        using ApiHost host = new(realModels: true);
        FaultModelFolder models = new(Path.Combine(AppContext.BaseDirectory, "fault-models"));
        LibraryFolder library = new(Path.Combine(AppContext.BaseDirectory, "limits-library"), models);
        List<string> refused = [];
        var taken = 0;
        foreach (var model in models.All)
        {
            var vehicle = await host.Vehicle(model.Id);
            foreach (var limit in library.Library.Limits.Where(l => l.Systems.Contains(model.Id)))
            {
                foreach (var check in limit.Checks.Where(id => model.Checks.Any(c => c.Id == id)))
                {
                    var answer = await host.Post($"/v1/vehicles/{vehicle}/limits/adopt", new { libraryId = limit.Id, check });
                    taken++;
                    if (answer.Status is not (HttpStatusCode.Created or HttpStatusCode.OK))
                    {
                        refused.Add($"{model.Id} {check} {limit.Id}: {answer.Text}");
                    }
                }
            }
        }

        Assert.True(refused.Count == 0, string.Join('\n', refused));
        Assert.True(taken >= 150, $"{taken} taken");
    }
}
