using FuelHistory.Contracts;
using FuelHistory.Host.Http;

namespace FuelHistory.Host.Features.FaultModels;

public static class FaultModelEndpoints
{
    public static void MapFaultModels(this IEndpointRouteBuilder app)
    {
        var api = app.MapGroup("").WithTags("Fault models");
        api.Read(Routes.FaultModels, List).Says("listFaultModels", "The fuel systems that are known here");
        api.Read(Routes.RefusedFaultModels, ListRefused).Says("listRefusedFaultModels", "The user's own fault models that cannot be used, with file, line and reason");
        api.Read(Routes.FaultModel, Get).Says("getFaultModel", "What can be asked, done and named for one fuel system, with sources").Refuses(404);
        api.Read(Routes.Check, GetCheck).Says("getCheck", "One check: steps, tools, minutes, hazard, cautions, limits").Refuses(404);
        api.Read(Routes.FaultModelStudy, Study).Says("studyFaultModel", "What causes what in one fuel system, what each check tells about each fault, and which faults are hard to tell apart").Refuses(404);
        api.Read(Routes.FaultModelPage, Page).Says("readFaultModel", "All of one fuel system as a web page to read or print").Refuses(404).Produces(200, contentType: WebPage.MediaType);
    }

    public static Ok<IReadOnlyList<FaultModelHead>> List(FaultModelFolder models) =>
        TypedResults.Ok<IReadOnlyList<FaultModelHead>>([.. models.Known.Select(m => new FaultModelHead(m.Id, m.Title, m.Revision, m.Own))]);

    public static Ok<IReadOnlyList<RefusedFaultModel>> ListRefused(FaultModelFolder models) => TypedResults.Ok(models.Refused);

    public static Results<Ok<FaultModelView>, Refused> Get(string faultModelId, FaultModelFolder models) =>
        models.Find(faultModelId) is { } model ? TypedResults.Ok(FaultModelViews.Of(model)) : ProblemAnswers.NotFound("fault model", faultModelId);

    public static Results<Ok<CheckView>, Refused> GetCheck(string faultModelId, string checkId, FaultModelFolder models) =>
        models.Find(faultModelId) is not { } model ? ProblemAnswers.NotFound("fault model", faultModelId)
            : model.Checks.FirstOrDefault(c => c.Id == checkId) is { } check ? TypedResults.Ok(FaultModelViews.Of(model, check))
            : ProblemAnswers.NotFound("check", checkId);

    public static Results<Ok<FaultModelStudy>, Refused> Study(string faultModelId, FaultModelFolder models, FaultModelStudies studies) =>
        models.FindLoaded(faultModelId) is { } model ? TypedResults.Ok(studies.Of(model)) : ProblemAnswers.NotFound("fault model", faultModelId);

    public static Results<WebPage, Refused> Page(string faultModelId, FaultModelFolder models, FaultModelStudies studies) =>
        models.FindLoaded(faultModelId) is { } model
            ? new WebPage(FaultModelPage.Of(FaultModelViews.Of(model.Compiled.Source), studies.Of(model)))
            : ProblemAnswers.NotFound("fault model", faultModelId);
}
