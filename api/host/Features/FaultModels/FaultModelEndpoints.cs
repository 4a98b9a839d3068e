using FuelHistory.Contracts;
using FuelHistory.Host.Http;

namespace FuelHistory.Host.Features.FaultModels;

public static class FaultModelEndpoints
{
    public static void MapFaultModels(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Fault models");
        api.Read(Routes.FaultModels, List).Says("listFaultModels", "The fuel systems that are known here");
        api.Read(Routes.FaultModel, Get).Says("getFaultModel", "What can be asked, done and named for one fuel system, with sources").Refuses(404);
        api.Read(Routes.Check, GetCheck).Says("getCheck", "One check: steps, tools, minutes, hazard, cautions, limits").Refuses(404);
    }

    public static Ok<IReadOnlyList<FaultModelHead>> List(FaultModelFolder models) =>
        TypedResults.Ok<IReadOnlyList<FaultModelHead>>([.. models.All.Select(m => new FaultModelHead(m.Id, m.Title, m.Revision))]);

    public static Results<Ok<FaultModelView>, Refused> Get(string faultModelId, FaultModelFolder models) =>
        models.Find(faultModelId) is { } model ? TypedResults.Ok(FaultModelViews.Of(model)) : ProblemAnswers.NotFound("fault model", faultModelId);

    public static Results<Ok<CheckView>, Refused> GetCheck(string faultModelId, string checkId, FaultModelFolder models) =>
        models.Find(faultModelId) is not { } model ? ProblemAnswers.NotFound("fault model", faultModelId)
            : model.Checks.FirstOrDefault(c => c.Id == checkId) is { } check ? TypedResults.Ok(FaultModelViews.Of(model, check))
            : ProblemAnswers.NotFound("check", checkId);
}
